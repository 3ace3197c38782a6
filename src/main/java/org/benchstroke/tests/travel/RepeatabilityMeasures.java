package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.DrawnErrors;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.unit.MeasureKind;

/** Repeatability of one travel error test by one truth: directions are never mixed. */
final class RepeatabilityMeasures {
  private static final String METHOD = "repeatability/2";
  private static final int LEAST_CYCLES = 3;

  /** What 95 % leave outside, on one side. */
  private static final double HARDLY = (1.0 - Budget.COVERAGE) / 2.0;

  private static final int HALVINGS = 12;

  private final TravelReadings taken;
  private final PositionBudget budget;

  RepeatabilityMeasures(TravelReadings taken, PositionBudget budget) {
    this.taken = taken;
    this.budget = budget;
  }

  /** None is asked for by a test of one or two cycles. */
  List<Measure> all() {
    List<Measure> measures = new ArrayList<>();
    for (Direction direction : Direction.values()) {
      measures.add(measure(direction));
    }
    return measures;
  }

  private Measure measure(Direction direction) {
    if (taken.spec().cycles() < LEAST_CYCLES) {
      return none(direction, "repeatability needs three cycles or more");
    }
    Optional<String> why = budget.instruments().lacking().or(() -> lacking(direction));
    if (why.isPresent()) {
      return none(direction, why.get());
    }
    double largest = -1.0;
    double squares = 0.0;
    double degrees = 0.0;
    double at = 0.0;
    for (double setpoint : setpoints(direction)) {
      List<Double> errors =
          taken.whole(setpoint, direction).orElseThrow().stream()
              .map(RestReading::errorPercent)
              .toList();
      Spread spread = Spread.of(errors);
      squares += (spread.count() - 1.0) * spread.deviation() * spread.deviation();
      degrees += spread.count() - 1.0;
      if (spread.range() > largest) {
        largest = spread.range();
        at = setpoint;
      }
    }
    Location place = new Location.Side(at, direction);
    String note =
        taken.spec().cycles()
            + " cycles, pooled s "
            + Numbers.significant(Math.sqrt(squares / degrees), 2)
            + " %";
    Measure measure =
        Measures.value(
            MeasureKind.REPEATABILITY,
            place,
            taken.truth(),
            largest,
            components(at, direction),
            METHOD,
            note);
    return Measures.drawn(measure, half(direction, largest));
  }

  /**
   * U of the largest of all ranges, by draws of the errors of all readings. Noise favours the
   * largest: a unit that repeats better than its readings do seems to repeat worse. So U reaches
   * down to the range of the unit's own that noise enlarges to the one read hardly ever; the value
   * stays what the definition asks for.
   */
  private double half(Direction direction, double largest) {
    List<List<Component>> inputs = new ArrayList<>();
    List<Double> read = new ArrayList<>();
    for (double setpoint : setpoints(direction)) {
      List<RestReading> cycles = taken.whole(setpoint, direction).orElseThrow();
      List<Component> own = new ArrayList<>(budget.instruments().steps(setpoint));
      own.add(budget.oneReading(cycles));
      for (RestReading reading : cycles) {
        inputs.add(own);
        read.add(reading.errorPercent());
      }
    }
    DrawnErrors errors = new DrawnErrors(inputs).and(budget.creep(direction));
    double half = errors.halfWidth(Budget.COVERAGE, e -> largest(read, 1.0, e) - largest);
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < HALVINGS; i++) {
      double share = (low + high) / 2.0;
      boolean hardly = errors.share(e -> largest(read, share, e) >= largest) <= HARDLY;
      low = hardly ? share : low;
      high = hardly ? high : share;
    }
    return Math.max(half, largest * (1.0 - low));
  }

  /**
   * The largest range of a unit that scatters by a share of what was read, with errors on top of
   * it; behind them what creep adds to it.
   */
  private double largest(List<Double> read, double share, double[] e) {
    int each = taken.spec().cycles();
    double most = 0.0;
    for (int from = 0; from < read.size(); from += each) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (int i = from; i < from + each; i++) {
        double at = share * read.get(i) + e[i];
        low = Math.min(low, at);
        high = Math.max(high, at);
      }
      most = Math.max(most, high - low);
    }
    return most + e[read.size()];
  }

  /**
   * Two readings make a range; source and meter are the same for both, so accuracy cancels. What is
   * still to creep may be more after the one than after the other.
   */
  private List<Component> components(double at, Direction direction) {
    List<RestReading> cycles = taken.whole(at, direction).orElseThrow();
    List<Component> components = new ArrayList<>();
    for (String which : List.of("highest", "lowest")) {
      double sign = which.equals("highest") ? 1.0 : -1.0;
      List<Component> own = new ArrayList<>(budget.instruments().steps(at));
      own.add(budget.oneReading(cycles));
      own.forEach(c -> components.add(c.named(c.source() + ", " + which).times(sign)));
    }
    components.addAll(budget.creep(direction));
    return components;
  }

  private List<Double> setpoints(Direction direction) {
    return taken.spec().places().stream()
        .filter(p -> p.cycle() == 1 && p.direction() == direction)
        .map(TravelError.Place::setpointPercent)
        .toList();
  }

  private Optional<String> lacking(Direction direction) {
    return setpoints(direction).stream()
        .map(s -> taken.lacking(s, direction))
        .flatMap(Optional::stream)
        .findFirst();
  }

  private Measure none(Direction direction, String reason) {
    return Measures.none(
        MeasureKind.REPEATABILITY, new Location.Way(direction), taken.truth(), METHOD, reason);
  }
}
