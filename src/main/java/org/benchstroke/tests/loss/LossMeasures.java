package org.benchstroke.tests.loss;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Motion;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Word;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.record.Event;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitType;

/**
 * What the unit did on each way of losing its signal, against what was ordered, within the bands
 * and allowances of {@link Practice}.
 */
final class LossMeasures implements TestJudge {
  private static final double MOTION_PERCENT = 0.5;
  private static final int START_SAMPLES = 10;
  private static final String METHOD = "signal-loss/1";

  private final UnitType unit;
  private final Practice practice;
  private final Samples samples;
  private final SignalLoss spec;
  private final Optional<Chapter> attempt;

  LossMeasures(JudgedBench judged, SignalLoss spec, Optional<Chapter> attempt) {
    this.unit = judged.unit();
    this.practice = unit.practice();
    this.samples = judged.samples();
    this.spec = spec;
    this.attempt = attempt;
  }

  /** What a unit must do: go to an end, or stay. */
  private record Duty(FailAction action, double delaySeconds, String ordered, String caveat) {}

  /** One loss as it was watched. */
  private record Watched(
      Trace trace,
      double askedSeconds,
      double disturbedSeconds,
      double untilSeconds,
      double startPercent) {}

  @Override
  public TestResult result() {
    List<AsOrdered> orders = all();
    return TestResult.orders(orders).found(findings(orders));
  }

  private static List<Finding> findings(List<AsOrdered> losses) {
    List<AsOrdered> wrong = losses.stream().filter(o -> o.word() == Word.FAIL).toList();
    String only = wrong.size() == 1 && losses.size() > 1 ? " only" : "";
    return wrong.stream()
        .map(
            o ->
                "Not as ordered on signal loss ("
                    + o.which()
                    + only
                    + "): "
                    + o.found()
                    + "; ordered: "
                    + o.ordered()
                    + ".")
        .map(sentence -> new Finding(Finding.Kind.SIGNAL_LOSS, sentence))
        .toList();
  }

  private List<AsOrdered> all() {
    List<AsOrdered> orders = new ArrayList<>(spec.ways().stream().map(this::judge).toList());
    orders.add(recovery());
    return orders;
  }

  /** Whether it comes back when the signal does, after the last loss. */
  private AsOrdered recovery() {
    Optional<Event.Rested> rest =
        attempt.flatMap(
            a ->
                a.arrivals(SignalLoss.Return.RECOVERY::equals).stream()
                    .map(RestWait::found)
                    .reduce((first, last) -> last));
    if (rest.isEmpty()) {
      return recovery("the record holds no recovery", Word.NO_RESULT);
    }
    Trace trace = samples.atRest(attempt.orElseThrow().lines(), rest.get());
    Optional<String> unfit =
        trace.isEmpty() ? Optional.of("no sample at rest") : TraceGuards.saturated(trace);
    if (unfit.isPresent()) {
      return recovery(unfit.get(), Word.NO_RESULT);
    }
    double at = trace.spread().mean();
    boolean there =
        rest.get().settled() && Math.abs(at - spec.at().percent()) <= practice.lossEndPercent();
    String found =
        (rest.get().settled() ? "came to rest at " : "did not come to rest, was at ")
            + Numbers.fixed(at, 1)
            + " %, setpoint "
            + Numbers.fixed(spec.at().percent(), 1)
            + " %";
    return recovery(found, there ? Word.PASS : Word.FAIL);
  }

  private static AsOrdered recovery(String found, Word word) {
    String ordered = "returns to its setpoint with the signal";
    return new AsOrdered(Subject.SIGNAL_LOSS, AsOrdered.RECOVERY, ordered, found, word, METHOD);
  }

  private AsOrdered judge(LossWay way) {
    Duty duty = way == LossWay.LOW ? follow() : fail();
    if (attempt.isEmpty()) {
      return result(way, duty, "the test was not completed", Word.NO_RESULT);
    }
    Optional<Passage> loss =
        attempt.get().passages().stream()
            .filter(p -> p.disturbed().filter(d -> wayOf(d) == way).isPresent())
            .reduce((first, last) -> last);
    if (loss.isEmpty()) {
      return result(way, duty, whyNot(attempt.get().lines(), way), Word.NO_RESULT);
    }
    Watched watched = watched(attempt.get().lines(), loss.get());
    Optional<String> unfit = unfit(watched);
    return unfit.isPresent()
        ? result(way, duty, unfit.get(), Word.NO_RESULT)
        : judge(way, duty, watched);
  }

  /** A source that can't open the loop says so in the record instead. */
  private static String whyNot(Lines lines, LossWay way) {
    return lines.all(Event.Checked.class).stream()
        .filter(c -> c.check().equals(way.check()))
        .map(Event.Checked::detail)
        .findFirst()
        .orElse("the record holds no such loss");
  }

  /** The way whose current is nearest; of the two without any, the record tells which. */
  private LossWay wayOf(Event.Disturbed disturbed) {
    if (disturbed.open()) {
      return LossWay.OPEN_LOOP;
    }
    UnitType.SignalLoss loss = unit.signalLoss();
    Map<LossWay, Double> currents = new EnumMap<>(LossWay.class);
    currents.put(LossWay.ZERO, 0.0);
    currents.put(LossWay.LOST, loss.lostMilliamps().milliamps());
    currents.put(LossWay.LOW, loss.holdsMilliamps().milliamps());
    loss.highMilliamps().ifPresent(high -> currents.put(LossWay.HIGH, high.milliamps()));
    return currents.entrySet().stream()
        .min(Comparator.comparingDouble(e -> Math.abs(e.getValue() - disturbed.currentMilliamps())))
        .orElseThrow()
        .getKey();
  }

  private Duty follow() {
    double signal = unit.positionAt(unit.signalLoss().holdsMilliamps()).percent();
    FailAction end = signal < 50.0 ? FailAction.CLOSE : FailAction.OPEN;
    String milliamps = Numbers.plain(unit.signalLoss().holdsMilliamps().milliamps()) + " mA";
    boolean alike = unit.signalLoss().action() == end;
    return new Duty(
        end,
        unit.signalLoss().delaySeconds(),
        "follows " + milliamps + " to the " + end(end) + ", does not take it for lost",
        alike ? "; a unit that takes it for lost would do the same" : "");
  }

  private Duty fail() {
    FailAction action = unit.signalLoss().action();
    String ordered =
        action == FailAction.STAY
            ? "stays within ±" + Numbers.plain(practice.lossStayPercent()) + " %"
            : "goes to the " + end(action);
    return new Duty(
        action,
        unit.signalLoss().delaySeconds(),
        ordered + ", delay at most " + Numbers.plain(unit.signalLoss().delaySeconds()) + " s",
        "");
  }

  private static String end(FailAction action) {
    return action == FailAction.OPEN ? "open end" : "closed end";
  }

  private Watched watched(Lines lines, Passage loss) {
    Event.Disturbed disturbed = loss.disturbed().orElseThrow();
    double asked = Samples.seconds(disturbed.askedNanos());
    double from = Samples.seconds(disturbed.answeredNanos());
    double until =
        loss.rests().stream()
            .mapToDouble(rest -> Samples.seconds(rest.found().toNanos()))
            .findFirst()
            .orElse(Double.NaN);
    Trace before =
        samples.position(lines).between(Double.NEGATIVE_INFINITY, asked).last(START_SAMPLES);
    double start = before.isEmpty() ? Double.NaN : before.spread().mean();
    Trace trace = samples.position(loss.lines()).between(from, until);
    return new Watched(trace, asked, from, until, start);
  }

  private Optional<String> unfit(Watched watched) {
    Trace trace = watched.trace();
    if (Double.isNaN(watched.startPercent()) || trace.size() < START_SAMPLES) {
      return Optional.of("too few position samples around the loss");
    }
    if (Double.isNaN(watched.untilSeconds())) {
      return Optional.of("the record does not say how long it was watched");
    }
    double off = Math.abs(watched.startPercent() - spec.at().percent());
    if (off > practice.lossEndPercent()) {
      // A unit that doesn't move at all may stand where it ought to end.
      return Optional.of(
          "it stood at "
              + Numbers.fixed(watched.startPercent(), 1)
              + " %, not at "
              + Numbers.fixed(spec.at().percent(), 1)
              + " %, when the signal was lost");
    }
    // The exchange that took the signal away lies between two samples and is no gap.
    return TraceGuards.gapWithin(
            trace,
            watched.disturbedSeconds(),
            watched.untilSeconds(),
            samples.longestPauseSeconds())
        .or(() -> TraceGuards.saturated(trace))
        .or(
            () ->
                TraceGuards.impossibleSlew(
                    trace,
                    samples.fastestPercentPerSecond(),
                    trace.last(START_SAMPLES).spread().deviation(),
                    samples.resolutionPercent()));
  }

  private AsOrdered judge(LossWay way, Duty duty, Watched watched) {
    Motion motion =
        Motion.of(
            watched.trace(), watched.disturbedSeconds(), watched.startPercent(), MOTION_PERCENT);
    String seen = seen(motion);
    if (duty.action() == FailAction.STAY) {
      return stay(way, duty, motion, seen);
    }
    boolean close = duty.action() == FailAction.CLOSE;
    OptionalDouble reached =
        Motion.withinForGood(
            watched.trace(),
            watched.disturbedSeconds(),
            close ? Double.NEGATIVE_INFINITY : 100.0 - practice.lossEndPercent(),
            close ? practice.lossEndPercent() : Double.POSITIVE_INFINITY);
    double travel = unit.travelSeconds((close ? 0.0 : 100.0) - motion.startPercent());
    double allowed =
        duty.delaySeconds() + travel * practice.lossTimeFactor() + practice.lossTimeSeconds();
    if (reached.isPresent()) {
      return reached(way, duty, motion, watched, reached.getAsDouble(), allowed);
    }
    boolean over = motion.watchedSeconds() >= allowed;
    boolean stands = !motion.moving() && motion.watchedSeconds() >= startsAtTheLatest(duty);
    if (over || stands) {
      return result(way, duty, seen + ": not at the " + end(duty.action()), Word.FAIL);
    }
    return result(way, duty, seen + ": not watched long enough", Word.NO_RESULT);
  }

  /**
   * The signal went at some instant between the request and its answer: what that leaves open is no
   * pass.
   */
  private AsOrdered reached(
      LossWay way, Duty duty, Motion motion, Watched watched, double seconds, double allowed) {
    String when = seen(motion) + ", there after " + Numbers.fixed(seconds, 1) + " s";
    double open = watched.disturbedSeconds() - watched.askedSeconds();
    double started = motion.startedAfterSeconds().orElse(0.0);
    double latest = startsAtTheLatest(duty);
    if (seconds > allowed) {
      return result(way, duty, when + ", allowed " + Numbers.fixed(allowed, 1) + " s", Word.FAIL);
    }
    if (started > latest) {
      return result(
          way, duty, when + ", must start within " + Numbers.fixed(latest, 1) + " s", Word.FAIL);
    }
    if (seconds + open > allowed || started + open > latest) {
      String why =
          when + "; the source took " + Numbers.fixed(open, 1) + " s to take the signal away";
      return result(way, duty, why, Word.NO_RESULT);
    }
    return result(way, duty, when + duty.caveat(), Word.PASS);
  }

  private AsOrdered stay(LossWay way, Duty duty, Motion motion, String seen) {
    double noise = MOTION_PERCENT / 2.0;
    boolean left =
        Math.abs(motion.endPercent() - motion.startPercent()) > practice.lossStayPercent()
            || Math.abs(motion.excursionPercent()) > practice.lossStayPercent() + noise;
    if (left) {
      return result(way, duty, seen + ": did not stay", Word.FAIL);
    }
    if (motion.moving() || motion.watchedSeconds() < startsAtTheLatest(duty)) {
      return result(way, duty, seen + ": not watched long enough", Word.NO_RESULT);
    }
    return result(way, duty, seen, Word.PASS);
  }

  /** After this a unit that stands still isn't going to move, s. */
  private double startsAtTheLatest(Duty duty) {
    return duty.delaySeconds() + unit.offSeconds() + practice.lossTimeSeconds();
  }

  private static String seen(Motion motion) {
    List<String> parts = new ArrayList<>();
    parts.add(
        "from "
            + Numbers.fixed(motion.startPercent(), 1)
            + " % to "
            + Numbers.fixed(motion.endPercent(), 1)
            + " %");
    parts.add(
        motion.moved()
            ? "moved after " + Numbers.fixed(motion.startedAfterSeconds().getAsDouble(), 1) + " s"
            : "did not move in " + Numbers.fixed(motion.watchedSeconds(), 1) + " s");
    return String.join(", ", parts);
  }

  private static AsOrdered result(LossWay way, Duty duty, String found, Word word) {
    return new AsOrdered(Subject.SIGNAL_LOSS, way.key(), duty.ordered(), found, word, METHOD);
  }
}
