package org.benchstroke.imported;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.UnitType;

/**
 * How far a setpoint in a file may lie from a point of a test and still be that point: half a step
 * of the file, and, where it was measured and not commanded, the bounds that the bench file states
 * for the source, which the uncertainty holds already. Immutable.
 */
final class Tolerance {
  /** So that a rounded 25 is 25 whatever the arithmetic of its last bit. */
  private static final double LEAST_PERCENT = 1.0e-6;

  /** Closer than this someone may have meant the point; our choice. */
  private static final double NEAR_PERCENT = 1.0;

  private final UnitType unit;
  private final Optional<Channel> source;
  private final double step;
  private final boolean milliamps;
  private final boolean measured;

  /** For the setpoints of a column. */
  Tolerance(BenchFile bench, UnitType unit, Column setpoint, CsvSheet sheet) {
    this.unit = unit;
    this.measured = !setpoint.repeats(sheet);
    this.source =
        bench
            .playing(Role.SIGNAL_SOURCE)
            .filter(s -> measured)
            .map(s -> s.channels().get(Role.SIGNAL_SOURCE));
    this.step = setpoint.step(sheet);
    this.milliamps = setpoint.unit().equals("mA");
  }

  /** Without what the arithmetic of a last bit adds. */
  static double clean(double value) {
    return BigDecimal.valueOf(value).setScale(9, RoundingMode.HALF_EVEN).doubleValue();
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

  /**
   * The points that setpoints stand for: each its own, but those that the file can't tell apart
   * share one. Setpoints themselves are never rounded; the name of a shared point is.
   */
  List<Double> points(List<Double> setpoints) {
    List<Double> points = new ArrayList<>();
    List<Double> open = new ArrayList<>();
    for (double each : setpoints.stream().sorted().toList()) {
      if (!open.isEmpty() && each - open.get(0) > 2.0 * at(each)) {
        points.add(shared(open));
        open.clear();
      }
      open.add(each);
    }
    if (!open.isEmpty()) {
      points.add(shared(open));
    }
    return points;
  }

  /**
   * Tells of setpoints that are near a point that was asked for, which the file has not, and too
   * far from it to be it.
   *
   * @param setpoints of the file, %
   * @param asked the points of the test
   */
  List<String> near(List<Double> setpoints, List<Double> asked) {
    List<String> notes = new ArrayList<>();
    for (double point : asked) {
      setpoints.stream()
          .filter(s -> setpoints.stream().noneMatch(other -> same(other, point)))
          .filter(s -> Math.abs(s - point) <= NEAR_PERCENT)
          .findFirst()
          .ifPresent(s -> notes.add(near(s, point)));
    }
    return notes;
  }

  private String near(double setpoint, double point) {
    return "A setpoint of "
        + Numbers.upTo(setpoint, 3)
        + " % was taken for none of the points asked for: "
        + Numbers.plain(point)
        + " % is further off than ±"
        + Numbers.significant(at(point), 2)
        + " %, which is what the digits"
        + (measured ? " and the source's accuracy" : "")
        + " explain. Set the points as they are asked for, or ask for this one.";
  }

  private double shared(List<Double> alike) {
    double low = alike.get(0);
    double high = alike.get(alike.size() - 1);
    if (high - low <= LEAST_PERCENT) {
      return low;
    }
    double middle = (low + high) / 2.0;
    int decimals = (int) Math.max(0.0, Math.ceil(-Math.log10(at(middle))));
    return BigDecimal.valueOf(middle).setScale(decimals, RoundingMode.HALF_EVEN).doubleValue();
  }

  /**
   * Half of the setpoints' last digit, in their unit: how far each is known. Whole numbers that are
   * points of the test are what was asked for, and known as well as the source is.
   *
   * @param setpoints in % of travel
   * @param points what each stands for
   */
  double halfDigit(List<Double> setpoints, List<Double> points) {
    boolean exact = step >= 1.0;
    for (int i = 0; i < setpoints.size(); i++) {
      exact &= Math.abs(setpoints.get(i) - points.get(i)) <= LEAST_PERCENT;
    }
    return exact ? 0.0 : step / 2.0;
  }

  String unit() {
    return milliamps ? "mA" : "%";
  }

  boolean measured() {
    return measured;
  }
}
