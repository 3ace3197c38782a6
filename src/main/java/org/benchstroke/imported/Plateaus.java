package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.unit.UnitType;

/**
 * A trace as the plateaus of its setpoint, counted from 0, and how the unit came to rest on each.
 * Beyond the first and the last nothing is at any setpoint. Immutable.
 */
public final class Plateaus {
  /** A current this close to one that was ordered is that one, mA; our choice. */
  private static final double SAME_MILLIAMPS = 0.02;

  /** Below it nothing flows: the loop is as good as open, mA; our choice. */
  private static final double OPEN_MILLIAMPS = 0.2;

  private final List<Plateau> plateaus;
  private final List<Double> points;
  private final List<RestFinder.Found> rests;
  private final UnitType unit;
  private final Tolerance tolerance;

  private Plateaus(
      List<Plateau> plateaus,
      List<Double> points,
      List<RestFinder.Found> rests,
      UnitType unit,
      Tolerance tolerance) {
    this.plateaus = List.copyOf(plateaus);
    this.points = List.copyOf(points);
    this.rests = List.copyOf(rests);
    this.unit = unit;
    this.tolerance = tolerance;
  }

  /**
   * Those of a trace.
   *
   * @param asked the setpoints that a procedure asks for, %
   * @param ordered whether there is one; else setpoints that can't be told apart share a point
   */
  static Plateaus of(
      List<Plateau> plateaus,
      List<Double> asked,
      boolean ordered,
      UnitType unit,
      Tolerance tolerance,
      Positions positions,
      RestFinder finder) {
    List<Double> points = points(plateaus, asked, ordered, tolerance);
    List<RestFinder.Found> rests = new ArrayList<>();
    for (int i = 0; i < plateaus.size(); i++) {
      double from =
          i == 0
              ? seen(plateaus.get(0), positions).findFirst().orElse(points.get(0))
              : from(plateaus.get(i - 1), points.get(i - 1), positions);
      rests.add(finder.find(plateaus.get(i), points.get(i), from, direction(points, i)));
    }
    return new Plateaus(plateaus, points, rests, unit, tolerance);
  }

  /** The point that each plateau's setpoint stands for; where it is none, the setpoint itself. */
  private static List<Double> points(
      List<Plateau> plateaus, List<Double> asked, boolean ordered, Tolerance tolerance) {
    TreeSet<Double> exact = new TreeSet<>(List.of(0.0, 100.0));
    exact.addAll(asked);
    List<Double> of = List.copyOf(exact);
    List<Double> others =
        plateaus.stream()
            .map(Plateau::percent)
            .filter(p -> !ordered && tolerance.point(p, of).isEmpty())
            .toList();
    List<Double> found = tolerance.points(others);
    List<Double> points = new ArrayList<>();
    for (Plateau plateau : plateaus) {
      OptionalDouble point = tolerance.point(plateau.percent(), of);
      OptionalDouble shared = point.isPresent() ? point : tolerance.point(plateau.percent(), found);
      points.add(shared.orElse(plateau.percent()));
    }
    return points;
  }

  /** Where a unit sets out: at the setpoint before; where that is none, where it was last seen. */
  private static double from(Plateau before, double point, Positions positions) {
    boolean none = point < 0.0 || point > 100.0;
    return none ? seen(before, positions).reduce((first, last) -> last).orElse(point) : point;
  }

  private static Stream<Double> seen(Plateau plateau, Positions positions) {
    return plateau.rows().stream().filter(TraceRows.Row::positioned).map(positions::percent);
  }

  private static String direction(List<Double> points, int index) {
    if (index == 0) {
      return "none";
    }
    return points.get(index) > points.get(index - 1) ? "up" : "down";
  }

  Plateau get(int index) {
    return plateaus.get(index);
  }

  RestFinder.Found rest(int index) {
    return rests.get(index);
  }

  /** The setpoint of each, as the point that it stands for where it is one, % of travel. */
  List<Double> points() {
    return points;
  }

  /** The setpoint of each as it stands in the file, % of travel. */
  List<Double> written() {
    return plateaus.stream().map(Plateau::percent).toList();
  }

  /** How many there are. */
  public int count() {
    return plateaus.size();
  }

  /** The first at or after one of which something is true; -1 if there is none. */
  public int first(int from, IntPredicate wanted) {
    return IntStream.range(from, count()).filter(wanted).findFirst().orElse(-1);
  }

  /** The unit type. */
  public UnitType unit() {
    return unit;
  }

  /** The setpoint, as the point that it stands for where it is one, % of travel. */
  public double point(int index) {
    return points.get(index);
  }

  /** How far the setpoint has changed from the one before, % of travel. */
  public double change(int index) {
    return points.get(index) - points.get(index - 1);
  }

  /** "up", "down", or "none" for the first. */
  public String direction(int index) {
    return direction(points, index);
  }

  /** Whether the setpoint stands for this point, % of travel. */
  public boolean isPoint(int index, double point) {
    return index >= 0 && index < count() && points.get(index) == point;
  }

  /** Whether the setpoint is as good as this, within what source and file leave open, %. */
  public boolean isNear(int index, double point) {
    return index >= 0 && index < count() && tolerance.same(points.get(index), point);
  }

  /** Whether the unit came to rest. */
  public boolean settled(int index) {
    return index < count() && rests.get(index).settled();
  }

  /** Whether it did so on a one-way approach. */
  public boolean clean(int index) {
    return rests.get(index).clean();
  }

  /** From the first row of a plateau to its last, s. */
  public double seconds(int index) {
    return plateaus.get(index).toSeconds() - plateaus.get(index).fromSeconds();
  }

  /** Whether the signal is this current, within what can be told apart. */
  public boolean carries(int index, Current ordered) {
    return !open(index)
        && Math.abs(plateaus.get(index).milliamps() - ordered.milliamps()) <= SAME_MILLIAMPS;
  }

  /** Whether so little flows that the loop is as good as open. */
  public boolean open(int index) {
    return plateaus.get(index).milliamps() <= OPEN_MILLIAMPS;
  }

  /** Whether the unit must take its signal for lost, whoever asked for it. */
  public boolean unsignalled(int index) {
    double milliamps = plateaus.get(index).milliamps();
    return milliamps <= unit.signalLoss().lostMilliamps().milliamps()
        || unit.signalLoss()
            .highMilliamps()
            .filter(h -> milliamps >= h.milliamps() || carries(index, h))
            .isPresent();
  }
}
