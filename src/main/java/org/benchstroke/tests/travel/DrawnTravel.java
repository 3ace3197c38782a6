package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Linearity;
import org.benchstroke.core.analysis.Linearity.Point;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.DrawnErrors;
import org.benchstroke.core.uncertainty.Tie;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.unit.MeasureKind;

/**
 * U of a linearity, which is the largest over the points of a travel error test, by draws of the
 * errors of all readings (JCGM 101:2008 clause 7). It is that of the magnitude: the sign says which
 * way the largest one goes. Immutable.
 */
final class DrawnTravel {
  /** Of each point: up and down. */
  private static final int EACH = 2;

  private final List<Point> curve;
  private final boolean[] up;
  private final boolean[] down;
  private final double upCreep;
  private final double downCreep;
  private final DrawnErrors errors;

  /** All readings of the test are there. */
  DrawnTravel(TravelReadings taken, PositionBudget budget, StaticCharacteristic characteristic) {
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
    }
    // Whatever it still creeps, it does at all points of one side alike.
    this.upCreep = budget.creepPercent(Direction.UP);
    this.downCreep = budget.creepPercent(Direction.DOWN);
    readings.add(upCreep + downCreep > 0.0 ? PositionBudget.creep(1.0) : List.of());
    this.errors = new DrawnErrors(readings);
  }

  static Linearity.Deviation deviation(MeasureKind kind, List<Point> curve) {
    return switch (kind) {
      case LINEARITY_TERMINAL -> Linearity.terminal(curve);
      case LINEARITY_ZERO_BASED -> Linearity.zeroBased(curve);
      default -> Linearity.independent(curve);
    };
  }

  /**
   * What the instruments are off by at all points together counts as the budget has it, for nobody
   * knows the shape of their errors; that of the readings is drawn.
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

  private double creep(double[] e) {
    return e[EACH * curve.size()];
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
