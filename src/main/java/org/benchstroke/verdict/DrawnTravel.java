package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.analysis.Direction;
import org.benchstroke.analysis.Linearity;
import org.benchstroke.analysis.Linearity.Point;
import org.benchstroke.analysis.StaticCharacteristic;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.uncertainty.Budget;
import org.benchstroke.uncertainty.Component;
import org.benchstroke.uncertainty.DrawnErrors;
import org.benchstroke.uncertainty.Tie;

/**
 * U of what is the largest over the points of a travel error test, by draws of the errors of all
 * readings (JCGM 101:2008 clause 7). It is that of the magnitude: the sign says which way the
 * largest one goes. Immutable.
 */
final class DrawnTravel {
  /** Of each point: up, down, and what is left of the meter's accuracy between them. */
  private static final int EACH = 3;

  /** Within so many deviations a difference may be chance. */
  private static final double CHANCE = 2.0;

  private final List<Point> curve;
  private final double[] lags;
  private final boolean[] up;
  private final boolean[] down;
  private final double upCreep;
  private final double downCreep;
  private final DrawnErrors errors;

  /** All readings of the test are there. */
  DrawnTravel(Taken taken, PositionBudget budget, StaticCharacteristic characteristic) {
    this.curve = characteristic.averageCurve();
    this.up = new boolean[curve.size()];
    this.down = new boolean[curve.size()];
    List<List<Component>> readings = new ArrayList<>();
    for (int i = 0; i < curve.size(); i++) {
      double at = curve.get(i).x();
      up[i] = taken.whole(at, Direction.UP).isPresent();
      down[i] = taken.whole(at, Direction.DOWN).isPresent();
      for (Direction direction : List.of(Direction.UP, Direction.DOWN)) {
        List<Component> own = new ArrayList<>();
        taken
            .whole(at, direction)
            .ifPresent(
                cycles -> {
                  own.addAll(budget.instruments().steps(at));
                  own.addAll(budget.rest(cycles));
                });
        readings.add(own);
      }
      double upAt = at + characteristic.error(at, Direction.UP).orElse(0.0);
      double downAt = at + characteristic.error(at, Direction.DOWN).orElse(0.0);
      readings.add(up[i] && down[i] ? budget.instruments().meterBetween(upAt, downAt) : List.of());
    }
    // Whatever it still creeps, it does at all points of one side alike.
    this.upCreep = budget.creepPercent(Direction.UP);
    this.downCreep = budget.creepPercent(Direction.DOWN);
    readings.add(upCreep + downCreep > 0.0 ? PositionBudget.creep(1.0) : List.of());
    this.errors = new DrawnErrors(readings);
    this.lags =
        curve.stream()
            .mapToDouble(
                p ->
                    characteristic.error(p.x(), Direction.DOWN).orElse(0.0)
                        - characteristic.error(p.x(), Direction.UP).orElse(0.0))
            .toArray();
  }

  static Linearity.Deviation deviation(MeasureKind kind, List<Point> curve) {
    return switch (kind) {
      case LINEARITY_TERMINAL -> Linearity.terminal(curve);
      case LINEARITY_ZERO_BASED -> Linearity.zeroBased(curve);
      default -> Linearity.independent(curve);
    };
  }

  /**
   * Of a linearity. What the instruments are off by at all points together counts as the budget has
   * it, for nobody knows the shape of their errors; that of the readings is drawn.
   */
  double linearity(MeasureKind kind, Budget first) {
    List<Component> instruments =
        first.components().stream().filter(c -> c.tie().kind() == Tie.Kind.ONE_INSTRUMENT).toList();
    double measured = Math.abs(deviation(kind, curve).deviation());
    int last = EACH * curve.size() + 1;
    return errors
        .and(instruments)
        .halfWidth(
            Budget.COVERAGE,
            e -> Math.abs(deviation(kind, shifted(e)).deviation()) - measured + e[last]);
  }

  /**
   * Of hysteresis + dead band. Slack is the same everywhere: points whose difference from the
   * largest may be chance count as equal to it, which is where the largest is favoured most.
   */
  double lag() {
    double largest = 0.0;
    for (int i = 0; i < lags.length; i++) {
      largest = both(i) ? Math.max(largest, Math.abs(lags[i])) : largest;
    }
    double[] equal = new double[lags.length];
    for (int i = 0; i < lags.length; i++) {
      // Two differences, each with its own error.
      double chance = CHANCE * Math.sqrt(2.0) * errors.deviation(EACH * i, EACH * i + 1);
      boolean chosen = both(i) && largest - Math.abs(lags[i]) <= chance;
      equal[i] = chosen ? Math.copySign(largest, lags[i]) : Double.NaN;
    }
    double measured = largest;
    return errors.halfWidth(
        Budget.COVERAGE,
        e -> {
          double most = 0.0;
          for (int i = 0; i < equal.length; i++) {
            double by =
                e[EACH * i + 1]
                    - e[EACH * i]
                    + e[EACH * i + 2]
                    + Math.copySign(1.0, equal[i]) * creep(e) * (upCreep + downCreep);
            most = Double.isNaN(equal[i]) ? most : Math.max(most, Math.abs(equal[i] + by));
          }
          return most - measured;
        });
  }

  private double creep(double[] e) {
    return e[EACH * curve.size()];
  }

  private boolean both(int i) {
    return up[i] && down[i];
  }

  private List<Point> shifted(double[] e) {
    List<Point> points = new ArrayList<>(curve.size());
    for (int i = 0; i < curve.size(); i++) {
      double sides =
          (up[i] ? e[EACH * i] + creep(e) * upCreep : 0.0)
              + (down[i] ? e[EACH * i + 1] - creep(e) * downCreep : 0.0);
      double error = sides / (up[i] && down[i] ? 2.0 : 1.0);
      points.add(new Point(curve.get(i).x(), curve.get(i).y() + error));
    }
    return points;
  }
}
