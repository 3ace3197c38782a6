package org.benchstroke.tests.holds;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.benchstroke.core.analysis.Estimate;
import org.benchstroke.core.analysis.Hunting;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.FrozenReading;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.Rests;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/** Whether a unit stays where the signal holds it. */
final class HuntingMeasures implements TestJudge {
  private static final String METHOD = "hunting/5";
  private static final String ORDERED = "stays at rest";
  private static final int LEAST_SAMPLES = 20;

  /** So seldom a few readings show so little of their noise. Our own choice. */
  private static final double BY_CHANCE = 0.005;

  private static final String COARSE =
      "; fewer than ten samples a cycle: it may be larger and faster";

  private final JudgedBench judged;
  private final Holds spec;
  private final Optional<Chapter> attempt;
  private final Trace position;
  private final PositionNoise noise;

  HuntingMeasures(JudgedBench judged, Holds spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
    this.position = judged.samples().position(attempt.map(Chapter::lines).orElse(Lines.NONE));
    this.noise = noise(judged);
  }

  @Override
  public Optional<String> beside(TestResult result) {
    return UnaskedHolds.moved(judged);
  }

  @Override
  public TestResult result() {
    List<Measure> measures = new ArrayList<>();
    List<AsOrdered> orders = new ArrayList<>();
    List<TestTrace> traces = new ArrayList<>();
    HuntingFindings findings = new HuntingFindings();
    for (int i = 0; i < spec.points().size(); i++) {
      Position point = spec.points().get(i);
      int before = Collections.frequency(spec.points().subList(0, i), point);
      Location place = new Location.Held(point.percent(), before + 1);
      Optional<Event.Watched> watched = watched(spec.stay(i));
      Optional<String> lacking = lacking(point, watched);
      Optional<Hunting> hunting =
          lacking.isPresent() ? Optional.empty() : watched.map(w -> hunting(trace(w)));
      watched.map(this::trace).ifPresent(t -> traces.add(seen(point, place, t, hunting)));
      if (hunting.isPresent()) {
        AsOrdered order = judge(place, hunting.get(), watched.orElseThrow());
        orders.add(order);
        if (order.word() == Word.FAIL) {
          motion(hunting.get()).ifPresent(kind -> findings.add(kind, order));
        }
        measures.addAll(measures(place, hunting.get()));
      } else {
        orders.add(order(place, lacking.orElseThrow(), Word.NO_RESULT));
        measures.addAll(none(place, lacking.get()));
      }
    }
    return TestResult.measures(measures).andOrders(orders).found(findings.all()).from(traces);
  }

  private static TestTrace seen(
      Position point, Location place, Trace trace, Optional<Hunting> hunting) {
    List<Integer> turning =
        hunting.map(h -> Hunting.turningPoints(trace, h.thresholdPercent())).orElse(List.of());
    return new TestTrace.OfHold(place, point.percent(), trace, turning, hunting);
  }

  private Optional<String> lacking(Position point, Optional<Event.Watched> watched) {
    if (attempt.isEmpty()) {
      return Optional.of("the test was not completed");
    }
    if (watched.isEmpty()) {
      return Optional.of("the record holds no such hold");
    }
    Trace trace = trace(watched.get());
    if (trace.size() < LEAST_SAMPLES) {
      return Optional.of("only " + trace.size() + " samples, at least " + LEAST_SAMPLES);
    }
    return judged
        .budget(Truth.FEEDBACK)
        .instruments()
        .lacking()
        .or(() -> cutShort(watched.get()))
        .or(
            () ->
                TraceGuards.gapWithin(
                    trace,
                    Samples.seconds(watched.get().fromNanos()),
                    Samples.seconds(watched.get().toNanos()),
                    judged.samples().longestPauseSeconds()))
        .or(() -> TraceGuards.saturated(trace))
        .or(() -> elsewhere(point, trace))
        .or(() -> frozen(trace))
        .or(
            () ->
                TraceGuards.impossibleSlew(
                    trace,
                    judged.samples().fastestPercentPerSecond(),
                    noise.deviationPercent(),
                    judged.samples().resolutionPercent()));
  }

  /** A hold that claims to be whole, but is shorter than it was to be. */
  private Optional<String> cutShort(Event.Watched watched) {
    double seconds = Samples.seconds(watched.toNanos() - watched.fromNanos());
    return watched.whole() && seconds < spec.seconds()
        ? Optional.of("watched for " + Numbers.fixed(seconds, 1) + " s only")
        : Optional.empty();
  }

  /** A unit that never came to its setpoint is still, too, and shows nothing. */
  private Optional<String> elsewhere(Position point, Trace trace) {
    double mean = trace.spread().mean();
    return Math.abs(mean - point.percent()) > nearPercent(judged.unit())
        ? Optional.of("it stood at " + Numbers.fixed(mean, 1) + " %, not at its setpoint")
        : Optional.empty();
  }

  /**
   * A reading that keeps all its digits while it is noisy in the rest of the record comes from an
   * input that stopped, and not from a unit that stands still.
   */
  private Optional<String> frozen(Trace trace) {
    double usual = judged.noise(Truth.FEEDBACK).usual(judged.unit().practice().restSamples());
    double renewal = judged.conversion().orElse(0.0);
    FrozenReading frozen =
        FrozenReading.in(trace, Math.max(noise.deviationPercent(), usual), renewal);
    return judged.logged() && frozen.unlikely(judged.samples().resolutionPercent())
        ? Optional.of(frozen.words())
        : Optional.empty();
  }

  /** Within this of its setpoint it has come there, %. */
  static double nearPercent(UnitType unit) {
    return Math.max(2.0 * unit.deadBandPercent(), unit.practice().lossEndPercent());
  }

  private Optional<Event.Watched> watched(Holds.Stay stay) {
    return attempt.flatMap(a -> a.watched(stay::equals).stream().findFirst());
  }

  private Trace trace(Event.Watched watched) {
    return position.between(
        Samples.seconds(watched.fromNanos()), Samples.seconds(watched.toNanos()));
  }

  private Hunting hunting(Trace trace) {
    return hunting(judged, noise, trace);
  }

  /** What the position did in a stretch in which the setpoint stood still. */
  static Hunting hunting(JudgedBench judged, Trace trace) {
    return hunting(judged, noise(judged), trace);
  }

  private static Hunting hunting(JudgedBench judged, PositionNoise noise, Trace trace) {
    UnitType unit = judged.unit();
    double band = Math.max(unit.practice().restBandPercent(), unit.deadBandPercent() / 10.0);
    double renewal = judged.conversion().orElse(0.0);
    return Hunting.of(
        trace, noise, band, fastestCycleSeconds(unit), unit.percentPerSecond(), renewal);
  }

  /**
   * Two pauses between motor starts; without a stated pause the way through a dead band and back.
   */
  private static double fastestCycleSeconds(UnitType unit) {
    double travel = 2.0 * unit.travelSeconds(unit.deadBandPercent());
    return Math.max(2.0 * unit.offSeconds(), travel);
  }

  /**
   * The noise that the preflight measured with the motor off, for a hunting unit has no rest. Few
   * readings show it badly, the more so where neighbours go together: where the rests of the run
   * show more, that counts, as far as chance explains it. A motion within the rests does not.
   */
  private static PositionNoise noise(JudgedBench judged) {
    int readings = judged.unit().practice().restSamples();
    RestNoise rests = Rests.besideMotion(judged.samples(), judged.record());
    double shown =
        judged
            .record()
            .events(Event.Checked.class)
            .filter(c -> c.check().equals(CheckNames.NOISE_AT_REST))
            .map(c -> c.values().getOrDefault(CheckNames.DEVIATION_PERCENT, 0.0))
            .max(Double::compare) // of a run that was resumed there are two
            .orElse(0.0);
    RestNoise.Known before = rests.ofOne(shown, readings);
    double usual = rests.usual(readings);
    double most = shown > 0.0 ? before.standard() * larger(before.degrees()) : usual;
    return new PositionNoise(
        Math.max(before.standard(), Math.min(usual, most)),
        judged.samples().resolutionPercent(),
        Double.POSITIVE_INFINITY,
        rests);
  }

  /** By how much a deviation may be larger than few readings show it (JCGM 100:2008 E.4.3). */
  private static double larger(double degrees) {
    return Math.sqrt(
        degrees / new ChiSquaredDistribution(degrees).inverseCumulativeProbability(BY_CHANCE));
  }

  private AsOrdered judge(Location place, Hunting hunting, Event.Watched watched) {
    if (!watched.whole()) {
      return order(place, watched.reason() + "; " + seen(hunting), Word.FAIL);
    }
    if (hunting.turns() >= 2) {
      return order(place, seen(hunting), Word.FAIL);
    }
    if (hunting.insufficient().isPresent()) {
      String range = Numbers.significant(hunting.peakToPeakPercent(), 2);
      String found = hunting.insufficient().get() + "; range " + range + " %";
      return order(place, found, Word.NO_RESULT);
    }
    if (hunting.wandered(judged.unit().deadBandPercent())) {
      String range = Numbers.significant(hunting.peakToPeakPercent(), 2);
      return order(place, "moved by " + range + " % while it was held", Word.FAIL);
    }
    return order(place, seen(hunting), Word.PASS);
  }

  private boolean cycles(Hunting hunting) {
    return hunting.limitCycle(judged.unit().deadBandPercent());
  }

  /** What its motion is, where it failed for that. */
  private Optional<Finding.Kind> motion(Hunting hunting) {
    return hunting.turns() < 2
        ? Optional.empty()
        : Optional.of(cycles(hunting) ? Finding.Kind.HUNTING : Finding.Kind.RESTLESS);
  }

  private String seen(Hunting hunting) {
    String time = " in " + Numbers.fixed(hunting.seconds(), 0) + " s";
    if (hunting.turns() < 2) {
      String range = Numbers.significant(hunting.peakToPeakPercent(), 2) + " %";
      String floor = Numbers.significant(hunting.thresholdPercent(), 2) + " % or more";
      return "no cycle of " + floor + time + ", range " + range;
    }
    String period =
        hunting.periodSeconds().isPresent()
            ? ", period " + Numbers.significant(hunting.periodSeconds().getAsDouble(), 2) + " s"
            : "";
    String restless =
        "moves back and forth, "
            + (hunting.regular() ? "within its dead band, by " : "irregularly, by ");
    return (cycles(hunting) ? "limit cycle of " : restless)
        + Numbers.significant(hunting.peakToPeakPercent(), 2)
        + " % peak to peak"
        + period
        + ", "
        + hunting.turns()
        + " reversals"
        + time
        + ", "
        + Numbers.fixed(hunting.startsPerHour().value(), 0)
        + " starts an hour"
        + (hunting.coarse() ? COARSE : "");
  }

  private List<Measure> measures(Location place, Hunting hunting) {
    if (hunting.insufficient().isPresent()) {
      return none(place, hunting.insufficient().get());
    }
    String note = "motion of " + Numbers.significant(hunting.thresholdPercent(), 2) + " % and more";
    Measure range = value(MeasureKind.HUNTING_PEAK_TO_PEAK, place, hunting.peakToPeak(), note);
    if (hunting.hidden().isPresent()) {
      String why = hunting.hidden().get();
      return List.of(
          range,
          none(MeasureKind.HUNTING_REVERSALS, place, why),
          none(MeasureKind.STARTS, place, why));
    }
    return List.of(
        range,
        value(MeasureKind.HUNTING_REVERSALS, place, hunting.turnsPerMinute(), note),
        value(MeasureKind.STARTS, place, hunting.startsPerHour(), note));
  }

  private static Measure value(MeasureKind kind, Location place, Estimate estimate, String note) {
    return Measures.value(
        kind, place, Truth.FEEDBACK, estimate.value(), Measures.components(estimate), METHOD, note);
  }

  private static List<Measure> none(Location place, String reason) {
    List<Measure> measures = new ArrayList<>();
    for (MeasureKind kind :
        List.of(
            MeasureKind.HUNTING_PEAK_TO_PEAK, MeasureKind.HUNTING_REVERSALS, MeasureKind.STARTS)) {
      measures.add(none(kind, place, reason));
    }
    return measures;
  }

  private static Measure none(MeasureKind kind, Location place, String reason) {
    return Measures.none(kind, place, Truth.FEEDBACK, METHOD, reason);
  }

  private static AsOrdered order(Location place, String found, Word word) {
    return new AsOrdered(Subject.HUNTING, place.words(), ORDERED, found, word, METHOD);
  }
}
