package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.InstrumentBudget;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Strides;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.MeasureKind;

/**
 * How evenly it went over full strokes: the noise of the feedback, which a worn track makes over
 * one stretch, and by how much the stem trails at the seat, which a sticky one makes on opening.
 */
public final class TraverseMeasures {
  private static final String NOISE_METHOD = "feedback-noise/1";
  private static final String SEAT_METHOD = "seat-lag/2";

  /** Nearer to closed the feedback's own delay is still filling up, % of travel. */
  private static final double SEAT_FROM = 1.5;

  private static final double SEAT_TO = 15.0;
  private static final double MID_FROM = 25.0;
  private static final double MID_TO = 75.0;
  private static final int LEAST_SAMPLES = 5;

  private final JudgedBench judged;
  private final Optional<Chapter> attempt;
  private final Lines lines;

  public TraverseMeasures(JudgedBench judged, Optional<Chapter> attempt) {
    this.judged = judged;
    this.attempt = attempt;
    this.lines = attempt.map(Chapter::lines).orElse(Lines.NONE);
  }

  public List<Measure> all() {
    List<Measure> all = new ArrayList<>(List.of(noise()));
    boolean seen =
        judged.bench().playing(Role.ANGLE_REFERENCE).isPresent()
            && !judged.byEye(Role.ANGLE_REFERENCE);
    if (seen) {
      all.add(seatLag());
    }
    return all;
  }

  private Measure noise() {
    MeasureKind kind = MeasureKind.FEEDBACK_NOISE;
    InstrumentBudget meter = judged.budget(Truth.FEEDBACK).instruments();
    Optional<String> why = lacking(meter);
    if (why.isPresent()) {
      return Measures.none(kind, Location.whole(), Truth.FEEDBACK, NOISE_METHOD, why.get());
    }
    Trace position = judged.samples().position(lines);
    Strides even = Strides.of(position, position, judged.unit().percentPerSecond());
    if (!even.possible()) {
      String few = "too few samples at full speed in every 5 % of the travel";
      return Measures.none(kind, Location.whole(), Truth.FEEDBACK, NOISE_METHOD, few);
    }
    String note =
        "standard deviation of a reading at "
            + Numbers.fixed(even.worstAt(), 0)
            + " %, the noisiest stretch; usual "
            + Numbers.significant(even.usual(), 2)
            + " %";
    List<Component> others = new ArrayList<>(meter.meterStep());
    others.add(Component.rectangular("stamps of the samples", even.stamps(), 1.0));
    List<Component> components = new ArrayList<>(others);
    components.add(scatter(even));
    Measure measure =
        Measures.value(
            kind, Location.whole(), Truth.FEEDBACK, even.worst(), components, NOISE_METHOD, note);
    double ofOthers = others.stream().mapToDouble(Component::contribution).reduce(0.0, Math::hypot);
    return Measures.drawn(measure, Math.hypot(even.halfWidth(Budget.COVERAGE), 2.0 * ofOthers));
  }

  private static Component scatter(Strides even) {
    double freedom = even.degreesOfFreedom();
    double deviation = even.worst() / Math.sqrt(2.0 * freedom);
    return Component.typeA("scatter of so few readings", deviation, freedom);
  }

  private Measure seatLag() {
    InstrumentBudget reference = judged.budget(Truth.STEM).instruments();
    Optional<String> why = lacking(reference);
    Trace stem = judged.samples().stem(lines);
    List<Trace> strokes = attempt.map(a -> new Strokes(judged).traces(a, true)).orElse(List.of());
    List<Beside> all = strokes.stream().flatMap(s -> beside(s, stem).stream()).toList();
    if (why.isEmpty() && (all.isEmpty() || all.size() < strokes.size())) {
      why = Optional.of("too few readings of the stem in an opening stroke");
    }
    if (why.isPresent()) {
      return Measures.none(
          MeasureKind.SEAT_LAG, Location.whole(), Truth.STEM, SEAT_METHOD, why.get());
    }
    Beside most = all.stream().max(Comparator.comparingDouble(Beside::lag)).orElseThrow();
    return Measures.value(
        MeasureKind.SEAT_LAG,
        Location.whole(),
        Truth.STEM,
        most.lag(),
        components(most, reference),
        SEAT_METHOD,
        "feedback − stem on opening, largest from 1.5 to 15 %, less its mean in mid travel");
  }

  private Optional<String> lacking(InstrumentBudget instruments) {
    return attempt.isEmpty()
        ? Optional.of("the test was not completed")
        : instruments.meterLacking();
  }

  /** What both meters are off by everywhere cancels; what differs from place to place does not. */
  private static List<Component> components(Beside most, InstrumentBudget reference) {
    Spread mid = most.mid();
    double freedom = mid.count() - 1.0;
    List<Component> components = new ArrayList<>(reference.meterStep());
    for (double level : new double[] {SEAT_TO, MID_TO}) {
      for (Component c : reference.meterAccuracy(level)) {
        double sign = level == SEAT_TO ? 1.0 : -1.0;
        components.add(c.named(c.source() + " at " + Numbers.plain(level) + " %").times(sign));
      }
    }
    components.add(Component.rectangular("motion between two samples", most.missedPercent(), 1.0));
    components.add(Component.typeA("scatter of one reading", mid.deviation(), freedom));
    components.add(Component.typeA("mean of mid travel", mid.ofMean(), freedom));
    return components;
  }

  /**
   * What the feedback shows more than the stem on one opening stroke.
   *
   * @param lag the largest near the seat, less the mean in mid travel, %
   * @param mid what it is in mid travel, %
   * @param missedPercent by how much more or less it may have been between two samples, %
   */
  private record Beside(double lag, Spread mid, double missedPercent) {
    /**
     * A stem that stood still until it broke away trailed by more and more until then, somewhere
     * between the largest reading and the next; one that was never seen to stand may have stood for
     * less than a sample.
     */
    static Beside of(double largest, Spread mid, double travelledPercent) {
      double read = largest - mid.mean();
      return read > travelledPercent
          ? new Beside(read + travelledPercent / 2.0, mid, travelledPercent / 2.0)
          : new Beside(read, mid, travelledPercent);
    }
  }

  /** The delays of both are the same at full speed everywhere, so that they cancel. */
  private static Optional<Beside> beside(Trace position, Trace stem) {
    List<Double> seat = new ArrayList<>();
    List<Double> mid = new ArrayList<>();
    double travelled = 0.0;
    for (int i = 1; i < position.size(); i++) {
      double y = position.percent(i);
      OptionalDouble x = at(stem, position.seconds(i));
      if (x.isPresent() && y >= SEAT_FROM && y <= SEAT_TO) {
        seat.add(y - x.getAsDouble());
        travelled = Math.max(travelled, y - position.percent(i - 1));
      } else if (x.isPresent() && y >= MID_FROM && y <= MID_TO) {
        mid.add(y - x.getAsDouble());
      }
    }
    if (seat.size() < LEAST_SAMPLES || mid.size() < LEAST_SAMPLES) {
      return Optional.empty();
    }
    Spread spread = Spread.of(mid);
    double most = seat.stream().mapToDouble(d -> d).max().orElseThrow();
    return Optional.of(Beside.of(most, spread, travelled));
  }

  /** On the line between the readings before and after. */
  private static OptionalDouble at(Trace trace, double seconds) {
    int after = trace.indexAt(seconds);
    if (after < 1 || after >= trace.size()) {
      return OptionalDouble.empty();
    }
    double from = trace.seconds(after - 1);
    double share = (seconds - from) / (trace.seconds(after) - from);
    double before = trace.percent(after - 1);
    return OptionalDouble.of(before + share * (trace.percent(after) - before));
  }
}
