package org.benchstroke.setup;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.run.Bench;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A unit's set-up, step by step. It never waits for a person and shows nothing: whoever drives it
 * calls {@link #look()} whenever {@link #dueNanos()} has come, shows the {@link SetUpState} and
 * hands over what is answered. What is measured or said is on the disk before it stands in a state.
 * It owns the bench's ports; one thread, but for {@link #state()}, which any may ask.
 */
public final class SetUp {
  private static final Logger LOG = LoggerFactory.getLogger(SetUp.class);
  private static final String CAME = "the unit came set up";

  private final SetUpPlan plan;
  private final BenchClock clock;
  private final SetUpLog log;
  private final SetUpBench bench;
  private final SwitchAngle angles;
  private final List<Step> steps;
  private final Set<Caution> read = EnumSet.noneOf(Caution.class);
  private final List<Event.SetUpStep> ended = new ArrayList<>();
  private final List<SetUpState.DoneStep> told = new ArrayList<>();
  private final Measured measured;
  private final Stopwatch wall = new Stopwatch();
  private int at;
  private long number = 1;
  private List<Difference> differences = List.of();
  private String notice = "";
  private Look look = Look.NOTHING;
  private long lookedNanos;
  private Optional<CamWatch> cam = Optional.empty();
  private Optional<CalibrationWatch> calibration = Optional.empty();
  private Optional<SetUpState.End> end = Optional.empty();
  private volatile SetUpState state;

  private SetUp(SetUpPlan plan, Bench bench, BenchClock clock, Journal journal) {
    this.plan = plan;
    this.clock = clock;
    this.log = new SetUpLog(journal);
    this.bench = new SetUpBench(plan, bench, clock, log);
    this.steps = plan.steps();
    this.angles = new SwitchAngle(plan.bench(), LocalDate.ofInstant(clock.utc(), ZoneOffset.UTC));
    this.measured = new Measured(angles);
    this.state = snapshot();
  }

  /**
   * Begins: the record is opened, then the bench, with the safe signal on the unit's input and its
   * motor supply off where a relay switches it. A bench that can't be reached is said in the state.
   *
   * @param bench closed; it is closed again at the end
   * @param journal empty; who made it closes it
   */
  public static SetUp begin(SetUpPlan plan, Bench bench, BenchClock clock, Journal journal) {
    SetUp setUp = new SetUp(plan, bench, clock, journal);
    setUp.guarded(setUp::open);
    return setUp;
  }

  /**
   * The record of a unit that came set up: no instrument is opened for it.
   *
   * @throws IOException if it can't be written
   */
  public static void cameSetUp(SetUpPlan plan, BenchClock clock, Journal journal)
      throws IOException {
    journal.write(opened(plan, clock));
    for (Step each : plan.steps()) {
      journal.write(unasked(each));
    }
    journal.write(new Event.Closed(SetUpState.CAME_SET_UP, CAME, 0.0));
  }

  private static Event.Opened opened(SetUpPlan plan, BenchClock clock) {
    return new Event.Opened(
        Event.FORMAT,
        plan.tool(),
        plan.bench().simulation().map(BenchFile.Simulation::shows).orElse(""),
        clock.pace(),
        plan.serial(),
        plan.operator(),
        plan.order(),
        clock.offset().getId(),
        plan.files());
  }

  private static Event.SetUpStep unasked(Step step) {
    return new Event.SetUpStep(step.key().key(), Outcome.CAME_SET_UP.key(), "", Map.of(), Map.of());
  }

  private void open() {
    log.write(opened(plan, clock));
    bench.begin();
    enter();
  }

  /** How far it is. */
  public SetUpState state() {
    return state;
  }

  /** When the next look is due, ns of the bench's clock. */
  public long dueNanos() {
    return lookedNanos + (long) (plan.bench().samplePeriodSeconds() * 1e9);
  }

  /** Reads what is read live at this step; at others only what keeps the bench alive. */
  public SetUpState look() {
    guarded(
        () -> {
          lookedNanos = clock.nanos();
          look = bench.look(step().form() instanceof Step.Calibrate);
          if (step().live()) {
            log.seen(look);
            cam.ifPresent(this::watch);
            calibration.ifPresent(c -> c.seen(look));
          }
        });
    return state;
  }

  private void watch(CamWatch watch) {
    watch.seen(look).forEach(edge -> passed(edge));
  }

  private void passed(Edge edge) {
    Step.Cam form = (Step.Cam) step().form();
    log.write(
        new Event.SwitchPassed(
            form.which().key(),
            edge.made(),
            edge.byCam() ? "cam" : "wheel",
            edge.degrees(),
            edge.halfDegrees(),
            edge.expandedDegrees()));
  }

  /**
   * Takes an answer.
   *
   * @param asked the {@link SetUpState#number()} of the state that was answered: the answer to
   *     another one does not count, but for a stop
   */
  public SetUpState answer(long asked, SetUpAnswer answer) {
    guarded(() -> take(asked, answer));
    return state;
  }

  private void take(long asked, SetUpAnswer answer) {
    notice = "";
    if (answer instanceof SetUpAnswer.Stop stop) {
      finish(SetUpState.STOPPED, stop.reason());
    } else if (asked != number) {
      notice = "That was an answer to what was asked before; look again.";
    } else if (!allowed().contains(answer.kind())) {
      notice = refusal();
    } else if (answer instanceof SetUpAnswer.Read || answer instanceof SetUpAnswer.Move) {
      acknowledge(answer);
    } else if (answer instanceof SetUpAnswer.Done done) {
      done(done.typed());
    } else if (answer instanceof SetUpAnswer.Skip skip) {
      skip(skip.reason().strip());
    } else if (answer instanceof SetUpAnswer.Mark) {
      cam.ifPresent(watch -> watch.heard().forEach(this::passed));
    } else if (answer instanceof SetUpAnswer.Begin) {
      calibration = Optional.of(new CalibrationWatch(clock.nanos(), plan.unit().travelDegrees()));
      number++;
    } else if (answer instanceof SetUpAnswer.Again) {
      again();
    } else {
      cameSetUp();
    }
  }

  private String refusal() {
    if (caution().isPresent()) {
      return "Read the caution first.";
    }
    if (step().form() instanceof Step.Cam) {
      return cam.filter(c -> c.whole() && !c.placed()).isPresent()
          ? "It does not trip where it is to: set the cam again, or skip with a reason."
          : "Trip and reset are not both measured yet.";
    }
    if (step().form() instanceof Step.Calibrate) {
      return bench.powerOn()
          ? "Start the calibration at the unit first, and say so here."
          : "The power is off: skip with a reason.";
    }
    return "That can't be answered here.";
  }

  private void acknowledge(SetUpAnswer answer) {
    Caution caution = caution().orElseThrow();
    boolean moves = answer instanceof SetUpAnswer.Move;
    if (answer instanceof SetUpAnswer.Move move && step().form() instanceof Step.Energise) {
      Optional<String> mistake = mistake(move.typed());
      if (mistake.isPresent()) {
        notice = mistake.get();
        return;
      }
    }
    log.write(new Event.Cautioned(caution.id(), caution.text(), moves ? "move" : "read"));
    if (answer instanceof SetUpAnswer.Move move && step().form() instanceof Step.Energise) {
      energise(move.typed());
    } else {
      read.add(caution);
      number++;
    }
  }

  private void energise(Map<FieldKey, String> typed) {
    Optional<String> why = bench.energise();
    if (why.isPresent()) {
      notice = why.get();
      number++;
    } else {
      end(Outcome.DONE, "", typed);
    }
  }

  private void done(Map<FieldKey, String> typed) {
    Optional<String> mistake = mistake(typed);
    if (mistake.isPresent()) {
      notice = mistake.get();
      return;
    }
    end(Outcome.DONE, "", typed);
  }

  private Optional<String> mistake(Map<FieldKey, String> typed) {
    return step().fields().stream()
        .flatMap(field -> field.mistake(typed.getOrDefault(field.key(), "")).stream())
        .findFirst();
  }

  private void skip(String reason) {
    if (reason.isEmpty()) {
      notice = "A step is skipped with a reason only.";
      return;
    }
    end(Outcome.SKIPPED, reason, Map.of());
  }

  private void again() {
    bench.openAgain(true);
    cam.ifPresent(CamWatch::forget);
    calibration = Optional.empty();
    number++;
  }

  private void cameSetUp() {
    for (Step each : steps) {
      write(unasked(each));
    }
    at = steps.size() - 1;
    finish(SetUpState.CAME_SET_UP, CAME);
  }

  private void end(Outcome outcome, String reason, Map<FieldKey, String> typed) {
    Map<String, Double> figures = new TreeMap<>();
    Map<String, String> facts = new TreeMap<>();
    for (Field field : step().fields()) {
      String text = typed.getOrDefault(field.key(), "").strip();
      if (text.isEmpty()) {
        continue;
      }
      if (field.kind() instanceof Field.Figure) {
        figures.put(field.key().key(), Field.numberOf(text));
      } else {
        facts.put(field.key().key(), text);
      }
    }
    measured(figures, facts);
    write(new Event.SetUpStep(step().key().key(), outcome.key(), reason, figures, facts));
    if (step().form() instanceof Step.Ready) {
      finish(SetUpState.COMPLETE, "all steps are done");
    } else {
      at++;
      number++;
      enter();
    }
  }

  private void write(Event.SetUpStep event) {
    log.write(event);
    ended.add(event);
    told.add(told(event));
    differences = Difference.of(ended, plan.unit());
  }

  /** What was measured at the step counts, whatever was typed. */
  private void measured(Map<String, Double> figures, Map<String, String> facts) {
    if (step().form() instanceof Step.ByHand) {
      look.angle().ifPresent(a -> figures.put(FieldKey.ANGLE_DEG.key(), a.value().degrees()));
    } else if (step().form() instanceof Step.Cam form) {
      cam.ifPresent(watch -> measured.cam(form, watch, ended, figures));
    } else if (step().form() instanceof Step.Calibrate) {
      calibration.ifPresent(watch -> Measured.calibration(watch, clock.nanos(), figures, facts));
    }
  }

  private void enter() {
    cam = Optional.empty();
    calibration = Optional.empty();
    read.removeIf(Caution::startsMotion);
    if (step().form() instanceof Step.Cam form) {
      look = bench.look(false);
      lookedNanos = clock.nanos();
      boolean sees = look.made(form.which()).isPresent() || !bench.fault().isEmpty();
      CamWatch watch =
          new CamWatch(
              form,
              angles,
              target(form),
              plan.unit().setUp().switchToleranceDegrees(),
              bench.sight().switches() && sees);
      watch.seen(look);
      cam = Optional.of(watch);
    }
  }

  /** An auxiliary switch goes by where its end switch was found to trip. */
  private OptionalDouble target(Step.Cam form) {
    Optional<Double> own = stated(form.which());
    if (form.ends().isEmpty()) {
      return own.map(OptionalDouble::of).orElseGet(OptionalDouble::empty);
    }
    LimitSwitch outer = form.ends().get();
    double inwards = form.openEnd() ? -1.0 : 1.0;
    return measured
        .trip(outer)
        .map(trip -> trip.edge().degrees())
        .or(() -> stated(outer))
        .map(end -> end + inwards * Steps.lead(plan.unit(), form))
        .or(() -> own)
        .map(OptionalDouble::of)
        .orElseGet(OptionalDouble::empty);
  }

  private Optional<Double> stated(LimitSwitch which) {
    return Optional.ofNullable(plan.unit().switches().get(which)).map(Angle::degrees);
  }

  private Step step() {
    return steps.get(at);
  }

  /** One that starts motion is asked each time, where the power comes on together with it. */
  private Optional<Caution> caution() {
    return step().cautions().stream().filter(each -> !read.contains(each)).findFirst();
  }

  private Set<SetUpAnswer.Kind> allowed() {
    Set<SetUpAnswer.Kind> kinds = EnumSet.of(SetUpAnswer.Kind.STOP);
    if (at == 0) {
      kinds.add(SetUpAnswer.Kind.CAME_SET_UP);
    }
    if (!(step().form() instanceof Step.Ready)) {
      kinds.add(SetUpAnswer.Kind.SKIP);
    }
    if (caution().isPresent()) {
      kinds.add(caution().get().startsMotion() ? SetUpAnswer.Kind.MOVE : SetUpAnswer.Kind.READ);
    } else if (step().form() instanceof Step.Calibrate) {
      calibrating(kinds);
    } else if (step().form() instanceof Step.Cam) {
      turning(kinds);
    } else {
      kinds.add(SetUpAnswer.Kind.DONE);
    }
    if (!bench.fault().isEmpty()) {
      kinds.add(SetUpAnswer.Kind.AGAIN);
    }
    return kinds;
  }

  private void calibrating(Set<SetUpAnswer.Kind> kinds) {
    if (calibration.isPresent()) {
      kinds.add(SetUpAnswer.Kind.DONE);
      kinds.add(SetUpAnswer.Kind.AGAIN);
    } else if (bench.powerOn()) {
      kinds.add(SetUpAnswer.Kind.BEGIN);
    }
  }

  private void turning(Set<SetUpAnswer.Kind> kinds) {
    CamWatch watch = cam.orElseThrow();
    kinds.add(SetUpAnswer.Kind.AGAIN);
    boolean byEar = !watch.seesSwitch();
    if (byEar && bench.sight().angle() && !watch.whole()) {
      kinds.add(SetUpAnswer.Kind.MARK);
    }
    boolean typed = byEar && !bench.sight().angle();
    if (typed || (watch.whole() && watch.placed())) {
      kinds.add(SetUpAnswer.Kind.DONE);
    }
  }

  private void finish(String how, String reason) {
    SetUpBench.Left left = bench.leave();
    end = Optional.of(new SetUpState.End(how, reason, left.safe().detail(), left.power()));
    number++;
    log.write(left.safe());
    log.write(new Event.Closed(how, reason, wall.nanos() / 1e9));
  }

  /** Whatever fails, the unit comes first. */
  private void guarded(Runnable work) {
    if (end.isEmpty()) {
      try {
        work.run();
      } catch (UncheckedIOException e) {
        broken(e.getMessage());
      } catch (RuntimeException | Error e) {
        LOG.error("the program failed while a unit was set up", e);
        broken("the program failed: " + e);
      }
    }
    state = snapshot();
  }

  /** The record may be what failed: the bench is left safe all the same. */
  private void broken(String why) {
    try {
      finish(SetUpState.FAULT, why);
    } catch (UncheckedIOException e) {
      LOG.debug("the end of the record can't be written", e);
    }
  }

  private SetUpState snapshot() {
    return new SetUpState(
        number,
        step(),
        at + 1,
        steps.size(),
        end.isPresent() ? Optional.empty() : caution(),
        live(),
        end.isPresent() ? Set.of() : allowed(),
        told,
        differences,
        notice.isEmpty() ? bench.fault() : notice,
        bench.powerOn(),
        end);
  }

  private static SetUpState.DoneStep told(Event.SetUpStep step) {
    return new SetUpState.DoneStep(
        StepKey.of(step.step()).orElseThrow(),
        Outcome.of(step.outcome()).orElseThrow(),
        SetUpWords.line(step));
  }

  private Live live() {
    if (!step().live() || end.isPresent()) {
      return Live.NOTHING;
    }
    OptionalDouble degrees =
        look.angle()
            .map(a -> OptionalDouble.of(a.value().degrees()))
            .orElseGet(OptionalDouble::empty);
    OptionalDouble percent =
        look.position()
            .map(p -> OptionalDouble.of(p.value().percent()))
            .orElseGet(OptionalDouble::empty);
    OptionalDouble target =
        step().form() instanceof Step.ByHand hand
            ? OptionalDouble.of(hand.targetDegrees())
            : cam.map(CamWatch::target).orElseGet(OptionalDouble::empty);
    return new Live(
        degrees,
        percent,
        target,
        plan.unit().setUp().switchToleranceDegrees(),
        look.switches().map(s -> s.value()).orElseGet(Map::of),
        step().form() instanceof Step.Cam form ? Optional.of(form.which()) : Optional.empty(),
        cam.map(watch -> watch.hint(clock.nanos(), degrees)),
        cam.flatMap(CamWatch::trip).map(SwitchAngle.Found::edge),
        cam.flatMap(CamWatch::reset).map(SwitchAngle.Found::edge),
        cam.map(CamWatch::changes).orElse(0L),
        calibration.map(this::calibrating),
        bench.fault());
  }

  private Live.Calibrating calibrating(CalibrationWatch watch) {
    double usual = step().form() instanceof Step.Calibrate form ? form.usualSeconds() : 0.0;
    return new Live.Calibrating(
        watch.seconds(clock.nanos()),
        usual,
        watch.now(clock.nanos()),
        watch.lowest(),
        watch.highest(),
        watch.byAngle() ? "°" : "%");
  }
}
