package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.benchstroke.analysis.Direction;
import org.benchstroke.analysis.Linearity;
import org.benchstroke.analysis.Linearity.Point;
import org.benchstroke.analysis.StaticCharacteristic;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.uncertainty.Budget;
import org.benchstroke.uncertainty.Component;
import org.benchstroke.uncertainty.DrawnErrors;

/**
 * U of what is the largest over the points of a travel error test, by draws of the errors of all
 * readings (JCGM 101:2008 clause 7). It is that of the magnitude: the sign says which way the
 * largest one goes. Immutable.
 */
final class DrawnTravel {
  /** Of each point: what both readings share, up alone, down alone. */
  private static final int EACH = 3;

  /** Within so many deviations a difference may be chance. */
  private static final double CHANCE = 2.0;

  private final List<Point> curve;
  private final double[] lags;
  private final boolean[] up;
  private final boolean[] down;
  private final DrawnErrors errors;

  /** All readings of the test are there. */
  DrawnTravel(Taken taken, PositionBudget budget, StaticCharacteristic characteristic) {
    this.curve = characteristic.averageCurve();
    this.up = new boolean[curve.size()];
    this.down = new boolean[curve.size()];
    List<List<Component>> readings = new ArrayList<>();
    for (int i = 0; i < curve.size(); i++) {
      double at = curve.get(i).x();
      readings.add(budget.instruments().accuracy(at, at + curve.get(i).y()));
      up[i] = taken.whole(at, Direction.UP).isPresent();
      down[i] = taken.whole(at, Direction.DOWN).isPresent();
      for (Direction direction : List.of(Direction.UP, Direction.DOWN)) {
        List<Component> own = new ArrayList<>();
        taken
            .whole(at, direction)
            .ifPresent(
                cycles -> {
                  own.addAll(budget.instruments().steps(at));
                  own.add(budget.rest(cycles, taken));
                });
        readings.add(own);
      }
    }
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

  double linearity(MeasureKind kind) {
    return half(e -> Math.abs(deviation(kind, shifted(e)).deviation()));
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
    boolean[] equal = new boolean[lags.length];
    for (int i = 0; i < lags.length; i++) {
      // Two differences, each with its own error.
      double chance = CHANCE * Math.sqrt(2.0) * errors.deviation(EACH * i + 1, EACH * i + 2);
      equal[i] = both(i) && largest - Math.abs(lags[i]) <= chance;
    }
    return errors.halfWidth(
        Budget.COVERAGE,
        e -> {
          double change = Double.NEGATIVE_INFINITY;
          for (int i = 0; i < equal.length; i++) {
            double by = Math.signum(lags[i]) * (e[EACH * i + 2] - e[EACH * i + 1]);
            change = equal[i] ? Math.max(change, by) : change;
          }
          return change;
        });
  }

  private boolean both(int i) {
    return up[i] && down[i];
  }

  private double half(ToDoubleFunction<double[]> measure) {
    double measured = measure.applyAsDouble(new double[EACH * curve.size()]);
    return errors.halfWidth(Budget.COVERAGE, e -> measure.applyAsDouble(e) - measured);
  }

  private List<Point> shifted(double[] e) {
    List<Point> points = new ArrayList<>(curve.size());
    for (int i = 0; i < curve.size(); i++) {
      double sides = (up[i] ? e[EACH * i + 1] : 0.0) + (down[i] ? e[EACH * i + 2] : 0.0);
      double error = e[EACH * i] + sides / (up[i] && down[i] ? 2.0 : 1.0);
      points.add(new Point(curve.get(i).x(), curve.get(i).y() + error));
    }
    return points;
  }
}
