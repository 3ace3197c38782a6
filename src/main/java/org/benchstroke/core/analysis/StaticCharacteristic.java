package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Linearity.Point;

/**
 * What readings at rest say of a unit, in % of travel: errors, hysteresis + dead band,
 * repeatability, linearity. Definitions: ANSI/ISA-51.1-1979 (R1993) and IEC 61298-2, from memory.
 * Immutable; nothing is filled in for a reading that isn't there.
 *
 * @param readings in the order in which they were taken
 */
public record StaticCharacteristic(List<RestReading> readings) {
  /** Two setpoints closer than this are the same, %. */
  private static final double SAME_PERCENT = 1.0e-6;

  public StaticCharacteristic {
    readings = List.copyOf(readings);
  }

  /** How readings going up and coming down are paired to find hysteresis + dead band. */
  public enum Pairing {
    /** Each reading with the next at the same point, taken in the pass that follows. */
    ADJACENT_PASSES,
    /** The mean of all down readings minus the mean of all up readings at the point. */
    MEANS
  }

  /**
   * Two readings of one point from either side, one pass after the other.
   *
   * @param up the one that was taken going up
   * @param down the one that was taken coming down
   */
  public record Passes(RestReading up, RestReading down) {
    /** Down minus up. */
    public Lag lag() {
      return new Lag(up.setpointPercent(), down.errorPercent() - up.errorPercent());
    }
  }

  /**
   * Down minus up at a point.
   *
   * @param setpointPercent the point
   * @param percent the difference with its sign: positive if it reads higher coming down
   */
  public record Lag(double setpointPercent, double percent) {}

  /** The setpoints, rising. */
  public List<Double> setpoints() {
    List<Double> points = new ArrayList<>();
    readings.stream()
        .map(RestReading::setpointPercent)
        .sorted()
        .filter(p -> points.isEmpty() || p - points.get(points.size() - 1) > SAME_PERCENT)
        .forEach(points::add);
    return points;
  }

  /** The readings at a point from one side, in order. */
  public List<RestReading> at(double setpointPercent, Direction direction) {
    return readings.stream()
        .filter(r -> Math.abs(r.setpointPercent() - setpointPercent) <= SAME_PERCENT)
        .filter(r -> r.direction() == direction)
        .toList();
  }

  /** The mean error over the cycles at a point from one side, %. */
  public OptionalDouble error(double setpointPercent, Direction direction) {
    return at(setpointPercent, direction).stream().mapToDouble(RestReading::errorPercent).average();
  }

  /**
   * The base of linearity at a point: the average of the up mean and the down mean (ISA-51.1); an
   * end point has one direction only and is that one's mean.
   */
  public OptionalDouble averageError(double setpointPercent) {
    OptionalDouble up = error(setpointPercent, Direction.UP);
    OptionalDouble down = error(setpointPercent, Direction.DOWN);
    if (up.isPresent() && down.isPresent()) {
      return OptionalDouble.of((up.getAsDouble() + down.getAsDouble()) / 2.0);
    }
    return up.isPresent() ? up : down;
  }

  /** The error at the lowest point, %. */
  public OptionalDouble zeroError() {
    List<Double> points = setpoints();
    return points.isEmpty() ? OptionalDouble.empty() : averageError(points.get(0));
  }

  /** The error at the highest point minus that at the lowest, %. */
  public OptionalDouble spanError() {
    List<Double> points = setpoints();
    if (points.size() < 2) {
      return OptionalDouble.empty();
    }
    double top = averageError(points.get(points.size() - 1)).orElseThrow();
    return OptionalDouble.of(top - averageError(points.get(0)).orElseThrow());
  }

  /** Down minus up at each point that has both, rising; with adjacent passes the largest there. */
  public List<Lag> lags(Pairing pairing) {
    List<Lag> lags = new ArrayList<>();
    for (double point : setpoints()) {
      Optional<Lag> lag =
          switch (pairing) {
            case MEANS -> lagOfMeans(point);
            case ADJACENT_PASSES ->
                largest(adjacentPasses(point).stream().map(Passes::lag).toList());
          };
      lag.ifPresent(lags::add);
    }
    return lags;
  }

  /** Hysteresis + dead band: the largest |down − up|, with its sign and its point. */
  public Optional<Lag> hysteresisPlusDeadBand(Pairing pairing) {
    return largest(lags(pairing));
  }

  private Optional<Lag> lagOfMeans(double point) {
    OptionalDouble up = error(point, Direction.UP);
    OptionalDouble down = error(point, Direction.DOWN);
    if (up.isEmpty() || down.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Lag(point, down.getAsDouble() - up.getAsDouble()));
  }

  /** Every two readings of a point that were taken in adjacent passes, in order. */
  public List<Passes> adjacentPasses(double point) {
    List<RestReading> here =
        readings.stream()
            .filter(r -> Math.abs(r.setpointPercent() - point) <= SAME_PERCENT)
            .toList();
    List<Passes> passes = new ArrayList<>();
    for (int i = 1; i < here.size(); i++) {
      RestReading earlier = here.get(i - 1);
      RestReading later = here.get(i);
      if (earlier.direction() != later.direction()) {
        boolean rose = earlier.direction() == Direction.UP;
        passes.add(rose ? new Passes(earlier, later) : new Passes(later, earlier));
      }
    }
    return passes;
  }

  private static Optional<Lag> largest(List<Lag> lags) {
    return lags.stream().max(Comparator.comparingDouble(lag -> Math.abs(lag.percent())));
  }

  /** Repeatability: the largest range at one point from one side over the cycles, %. */
  public OptionalDouble repeatabilityRange() {
    return groups().stream().filter(g -> g.count() > 1).mapToDouble(Spread::range).max();
  }

  /** The standard deviation within a point and side, pooled over all, %. */
  public OptionalDouble pooledDeviation() {
    double squares = 0.0;
    int degrees = 0;
    for (Spread group : groups()) {
      squares += (group.count() - 1) * group.deviation() * group.deviation();
      degrees += group.count() - 1;
    }
    return degrees == 0 ? OptionalDouble.empty() : OptionalDouble.of(Math.sqrt(squares / degrees));
  }

  private List<Spread> groups() {
    List<Spread> groups = new ArrayList<>();
    for (double point : setpoints()) {
      for (Direction direction : Direction.values()) {
        List<Double> errors = at(point, direction).stream().map(RestReading::errorPercent).toList();
        if (!errors.isEmpty()) {
          groups.add(Spread.of(errors));
        }
      }
    }
    return groups;
  }

  /** The average error curve, rising: what {@link Linearity} takes. */
  public List<Point> averageCurve() {
    return setpoints().stream().map(p -> new Point(p, averageError(p).orElseThrow())).toList();
  }
}
