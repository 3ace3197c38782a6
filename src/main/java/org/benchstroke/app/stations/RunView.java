package org.benchstroke.app.stations;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Samples;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.StepId;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;
import org.benchstroke.tests.travel.TravelError;
import org.benchstroke.unit.Limit;

/**
 * Makes of what happens in a run what a screen shows of it. One thread, that of the watcher; what
 * it gives out is immutable.
 */
final class RunView implements Spectator {
  private static final int KEPT_SAMPLES = 400;
  private static final int MOST_READINGS = 200;
  private static final int MOST_SAID = 5;

  private final Consumer<Running> changed;
  private final Consumer<Point> sampled;
  private final Optional<Limit> travel;

  private final Deque<Event.Sampled> positions = new ArrayDeque<>();
  private final List<LeftBehind> readings = new ArrayList<>();
  private final Map<String, Boolean> switches = new LinkedHashMap<>();
  private final Deque<String> said = new ArrayDeque<>();
  private Expansion plan = new Expansion(List.of());
  private TestMark[] marks = {};
  private int test = -1;
  private String state = "opening the bench";
  private OptionalDouble setpoint = OptionalDouble.empty();
  private OptionalDouble position = OptionalDouble.empty();
  private OptionalDouble stem = OptionalDouble.empty();
  private OptionalDouble loop = OptionalDouble.empty();
  private boolean upward = true;
  private Output output = Output.QUIET;
  private String outputDetail = "";
  private Optional<StepId> step = Optional.empty();
  private long stepBegan;
  private long now;
  private double left;

  /**
   * Of a run that has not begun.
   *
   * @param travel what was agreed for the travel error, if anything was
   * @param changed gets how it goes whenever that is another
   * @param sampled gets each position
   */
  RunView(Optional<Limit> travel, Consumer<Running> changed, Consumer<Point> sampled) {
    this.travel = travel;
    this.changed = changed;
    this.sampled = sampled;
  }

  @Override
  public void planned(Expansion planned) {
    plan = planned;
    marks = new TestMark[plan.tests().size()];
    for (PlannedTest each : plan.tests()) {
      marks[each.index()] = new TestMark(each.name(), TestMark.Mark.WAITING, 0, "");
    }
    left = plan.seconds();
    tell();
  }

  @Override
  public void happened(Entry entry) {
    now = entry.nanos();
    if (!entry.step().equals(step)) {
      step = entry.step();
      stepBegan = entry.nanos();
    }
    if (entry.event() instanceof Event.Sampled one) {
      take(one);
      return;
    }
    take(entry);
    tell();
  }

  private void take(Entry entry) {
    Event event = entry.event();
    if (event instanceof Event.Checked checked) {
      state = "checking the bench: " + checked.check();
      if (!checked.outcome().equals("ok")) {
        say(checked.check() + ": " + checked.detail());
      }
    } else if (event instanceof Event.Commanded commanded) {
      commanded(commanded.setpointPercent());
    } else if (event instanceof Event.Disturbed disturbed) {
      output = Output.LIVE;
      setpoint = OptionalDouble.empty();
      state = "signal taken away: " + disturbed.what();
    } else if (event instanceof Event.Powered powered) {
      output = powered.on() ? Output.LIVE : output;
      state = "motor supply " + (powered.on() ? "on" : "off");
    } else if (event instanceof Event.TestBegan began) {
      test = began.index();
      mark(test, TestMark.Mark.RUNNING, began.attempt(), "");
      if (takesReadings(test)) {
        readings.clear();
      }
    } else if (event instanceof Event.TestEnded ended) {
      mark(ended.index(), markOf(ended.outcome()), ended.attempt(), ended.reason());
      if (!ended.reason().isEmpty()) {
        say(ended.test() + ", " + ended.outcome() + ": " + ended.reason());
      }
    } else if (event instanceof Event.Rested rested) {
      rested(entry, rested);
    } else if (event instanceof Event.Faulted fault) {
      say(fault.fault() + ": " + fault.detail());
    } else if (event instanceof Event.MadeSafe safe) {
      madeSafe(safe);
    } else if (event instanceof Event.Closed closed) {
      test = -1;
      left = 0.0;
      state = closed.how().equals("complete") ? "all tests done" : closed.how();
    }
  }

  private void commanded(double percent) {
    output = Output.LIVE;
    double from = setpoint.orElse(position.orElse(0.0));
    if (percent != from) {
      upward = percent > from;
    }
    setpoint = OptionalDouble.of(percent);
  }

  private void madeSafe(Event.MadeSafe safe) {
    setpoint = OptionalDouble.empty();
    // It may move on its safe signal, and nobody reads where to.
    position = OptionalDouble.empty();
    output = safe.confirmed() ? Output.SAFE : Output.UNKNOWN;
    outputDetail = safe.detail();
    state =
        safe.confirmed()
            ? "safe: " + Numbers.fixed(safe.signalMilliamps(), 3) + " mA confirmed"
            : "safe signal not confirmed: keep clear";
  }

  private static TestMark.Mark markOf(String outcome) {
    return switch (outcome) {
      case "complete" -> TestMark.Mark.DONE;
      case "void" -> TestMark.Mark.VOID;
      default -> TestMark.Mark.NOT_DONE;
    };
  }

  private void mark(int index, TestMark.Mark mark, int attempt, String reason) {
    if (index >= 0 && index < marks.length) {
      marks[index] = new TestMark(marks[index].name(), mark, attempt, reason);
    }
  }

  private boolean takesReadings(int index) {
    return index >= 0
        && index < plan.tests().size()
        && plan.tests().get(index).test() instanceof TravelError;
  }

  private void take(Event.Sampled one) {
    switch (one.channel()) {
      case "position" -> {
        positions.addLast(one);
        if (positions.size() > KEPT_SAMPLES) {
          positions.removeFirst();
        }
        position = OptionalDouble.of(one.value());
        sampled.accept(
            new Point(one.answeredNanos() / 1e9, setpoint.orElse(Double.NaN), one.value()));
      }
      case "stem" -> stem = OptionalDouble.of(one.value());
      case "loop" -> loop = OptionalDouble.of(one.value());
      default -> {
        if (one.channel().startsWith(Samples.SWITCH)) {
          switches.put(one.channel().substring(Samples.SWITCH.length()), one.value() != 0.0);
        }
      }
    }
  }

  private void rested(Entry entry, Event.Rested rested) {
    boolean place =
        rested.leg() == Leg.ARRIVAL
            && plan.aim(entry).filter(TravelError.Place.class::isInstance).isPresent();
    if (!place || !rested.settled() || !rested.clean() || readings.size() >= MOST_READINGS) {
      return;
    }
    mean(rested)
        .ifPresent(
            percent ->
                readings.add(
                    new LeftBehind(
                        rested.setpointPercent(), percent, rested.direction().equals("up"))));
  }

  private OptionalDouble mean(Event.Rested rested) {
    return positions.stream()
        .filter(
            s -> {
              long stamp = s.askedNanos() + (s.answeredNanos() - s.askedNanos()) / 2;
              return stamp >= rested.fromNanos() && stamp <= rested.toNanos();
            })
        .mapToDouble(Event.Sampled::value)
        .average();
  }

  @Override
  public void progressed(Progress progress) {
    position = progress.positionPercent();
    left = progress.secondsLeft();
    String at = setpoint.isPresent() ? " " + Numbers.upTo(setpoint.getAsDouble(), 2) + " %" : "";
    switch (progress.state()) {
      case "moving" -> state = "going to" + at + (upward ? ", upward" : ", downward");
      case "settling" -> state = "watching for rest at" + at;
      case "at rest" -> state = "at rest at" + at;
      case "holding" -> state = "holding at" + at;
      case "resting, duty" -> state = "motor resting, as its duty asks";
      case "ramp" -> state = "following a ramp, at" + at;
      case "link lost" -> state = "link lost: keep clear";
      case "signal away" -> state = state.startsWith("signal taken away") ? state : "no signal";
      default -> state = progress.state();
    }
    tell();
  }

  private void say(String what) {
    said.addLast(what);
    if (said.size() > MOST_SAID) {
      said.removeFirst();
    }
  }

  /** Of the action under way what has gone by is taken off; no more than it nominally takes. */
  private double gone() {
    double whole =
        step.filter(s -> s.test() < plan.tests().size())
            .map(s -> plan.tests().get(s.test()).actions())
            .filter(actions -> step.get().step() < actions.size())
            .map(actions -> actions.get(step.get().step()))
            .map(Action::seconds)
            .orElse(0.0);
    return Math.min(whole, Math.max(0.0, (now - stepBegan) / 1e9));
  }

  private void tell() {
    double total = Math.max(0.0, left - gone());
    double after =
        plan.tests().stream()
            .filter(each -> each.index() > test)
            .mapToDouble(PlannedTest::seconds)
            .sum();
    Optional<LeftBehind> furthest =
        readings.stream().max(Comparator.comparingDouble(r -> Math.abs(r.error())));
    OptionalDouble band =
        travel.map(l -> OptionalDouble.of(l.narrowestSide())).orElse(OptionalDouble.empty());
    boolean beyond =
        furthest.isPresent()
            && band.isPresent()
            && Math.abs(furthest.get().error()) > band.getAsDouble();
    changed.accept(
        new Running(
            test >= 0 && test < marks.length ? marks[test].name() : "",
            state,
            setpoint,
            position,
            stem,
            loop,
            output,
            outputDetail,
            List.of(marks),
            readings,
            band,
            furthest.map(this::soFar),
            beyond,
            switches,
            test < 0 ? 0.0 : Math.max(0.0, total - after),
            total,
            List.copyOf(said)));
  }

  /** Readings beside a limit, without their uncertainty: no verdict, and it does not say one. */
  private String soFar(LeftBehind furthest) {
    return readings.size()
        + (readings.size() == 1 ? " reading" : " readings")
        + ", the furthest off "
        + Numbers.minusSigns(Numbers.signed(furthest.error(), 2))
        + " % at "
        + Numbers.upTo(furthest.setpointPercent(), 2)
        + " %"
        + travel.map(l -> "; agreed: " + l.text()).orElse("");
  }
}
