package org.benchstroke.imported;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.UnitType;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;
import org.benchstroke.quantity.Position;

/**
 * How far a setpoint in a file may lie from a point of a test and still be that point: half a step
 * of the file, and, where it was measured and not commanded, the bounds that the bench file states
 * for the source, which the uncertainty holds already. Immutable.
 */
final class Tolerance {
  /** So that a rounded 25 is 25 whatever the arithmetic of its last bit. */
  private static final double LEAST_PERCENT = 1.0e-6;

  private final UnitType unit;
  private final Optional<Channel> source;
  private final double step;
  private final boolean milliamps;

  /** For the setpoints of a column. */
  Tolerance(BenchFile bench, UnitType unit, Column setpoint, CsvSheet sheet) {
    this.unit = unit;
    boolean commanded = setpoint.repeats(sheet);
    this.source =
        bench
            .playing(Role.SIGNAL_SOURCE)
            .filter(s -> !commanded)
            .map(s -> s.channels().get(Role.SIGNAL_SOURCE));
    this.step = setpoint.step(sheet);
    this.milliamps = setpoint.unit().equals("mA");
  }

  /** ± % of travel at a setpoint. */
  double at(double percent) {
    Position position = Position.ofPercent(percent);
    double current = unit.currentAt(position).milliamps();
    double half =
        source.map(c -> c.accuracy().halfWidthAt(current) + c.resolution() / 2.0).orElse(0.0);
    double slope = Math.abs(unit.percentPerMilliampAt(position));
    double rounding = step / 2.0 * (milliamps ? slope : 1.0);
    return Math.max(LEAST_PERCENT, half * slope + rounding);
  }

  boolean same(double percent, double point) {
    return Math.abs(percent - point) <= at(point);
  }

  /** The point that a setpoint is; empty if it is none. */
  OptionalDouble point(double percent, List<Double> points) {
    return points.stream().filter(p -> same(percent, p)).mapToDouble(p -> p).findFirst();
  }

  /** The roundest number that a setpoint can stand for. */
  double rounded(double percent) {
    for (double step : new double[] {5.0, 1.0, 0.5, 0.1, 0.01}) {
      double round = Math.rint(percent / step) * step;
      double clean = Math.rint(round * 1000.0) / 1000.0;
      if (same(percent, clean)) {
        return clean;
      }
    }
    return percent;
  }
}
