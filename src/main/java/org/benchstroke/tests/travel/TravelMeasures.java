package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Linearity;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.Scope;
import org.benchstroke.unit.MeasureKind;

/**
 * The measures of one travel error test by one truth. A missing reading is never made up. One
 * thread.
 */
final class TravelMeasures {
  private static final String TRAVEL = "travel-error/3";
  private static final String ZERO = "zero-error/2";
  private static final double CLOSED = 0.0;
  private static final double OPEN = 100.0;

  /** A smaller deviation is the arithmetic's. */
  private static final double STRAIGHT_PERCENT = 1.0e-9;

  private final TravelReadings taken;
  private final PositionBudget budget;
  private final StaticCharacteristic characteristic;
  private final String note;
  private final boolean lagByMeansAsked;
  private Optional<DrawnTravel> drawn = Optional.empty();

  /** Without a limit that asks for a pairing. */
  TravelMeasures(TravelReadings taken, PositionBudget budget, String note) {
    this(taken, budget, note, false);
  }

  /**
   * The measures.
   *
   * @param note what a reader must know of each of them
   * @param lagByMeansAsked whether a limit asks for hysteresis + dead band by means
   */
  TravelMeasures(
      TravelReadings taken, PositionBudget budget, String note, boolean lagByMeansAsked) {
    this.lagByMeansAsked = lagByMeansAsked;
    this.taken = taken;
    this.budget = budget;
    this.characteristic = new StaticCharacteristic(taken.readings());
    this.note = note;
  }

  List<Measure> all() {
    List<Measure> measures = new ArrayList<>(errors());
    measures.addAll(extremes());
    measures.add(zero());
    measures.add(span());
    measures.addAll(new LagMeasures(taken, budget).all(lagByMeansAsked));
    measures.add(linearity(MeasureKind.LINEARITY_INDEPENDENT, "linearity-independent/3"));
    measures.add(linearity(MeasureKind.LINEARITY_TERMINAL, "linearity-terminal/3"));
    measures.add(linearity(MeasureKind.LINEARITY_ZERO_BASED, "linearity-zero-based/3"));
    measures.addAll(new RepeatabilityMeasures(taken, budget).all());
    return measures;
  }

  private List<Measure> errors() {
    return taken.spec().places().stream()
        .filter(p -> p.cycle() == 1)
        .map(p -> error(p.setpointPercent(), p.direction()))
        .toList();
  }

  /**
   * The highest and the lowest of all single readings, where there are more than one for each place
   * of the test: a mean hides one that strays, and what the test did not ask for was read all the
   * same.
   */
  private List<Measure> extremes() {
    boolean more = taken.spec().cycles() > 1 || !taken.others().isEmpty();
    List<RestReading> all = new ArrayList<>(taken.readings());
    all.addAll(taken.others());
    if (!more || all.isEmpty() || budget.instruments().lacking().isPresent()) {
      return List.of();
    }
    Comparator<RestReading> byError = Comparator.comparingDouble(RestReading::errorPercent);
    RestReading highest = all.stream().max(byError).orElseThrow();
    RestReading lowest = all.stream().min(byError).orElseThrow();
    List<Measure> measures = new ArrayList<>();
    if (taken.spec().cycles() > 1 || highest.cycle() == 0) {
      measures.add(extreme(true, highest));
    }
    if (taken.spec().cycles() > 1 || lowest.cycle() == 0) {
      measures.add(extreme(false, lowest));
    }
    return measures;
  }

  private Measure extreme(boolean highest, RestReading reading) {
    double at = reading.setpointPercent();
    List<Component> components =
        new ArrayList<>(budget.instruments().accuracy(at, reading.meanPercent()));
    components.addAll(budget.instruments().steps(at));
    components.add(budget.oneReading(List.of(reading)));
    components.addAll(budget.creep(reading.direction()));
    Location place = new Location.Reading(at, reading.direction(), reading.cycle(), highest);
    double error = reading.errorPercent();
    return value(MeasureKind.TRAVEL_ERROR, place, error, components, TRAVEL, note)
        .of(Scope.READINGS);
  }

  private Measure error(double setpoint, Direction direction) {
    return single(
        MeasureKind.TRAVEL_ERROR,
        new Location.Side(setpoint, direction),
        setpoint,
        direction,
        TRAVEL);
  }

  /** A point elsewhere than at an end says nothing of the end. */
  private Optional<String> notAnEnd(double setpoint, double end) {
    return setpoint == end
        ? Optional.empty()
        : Optional.of("the test does not come to " + percent(end));
  }

  private Measure zero() {
    Optional<String> elsewhere = notAnEnd(taken.lowest(), CLOSED);
    if (elsewhere.isPresent()) {
      return none(MeasureKind.ZERO_ERROR, Location.whole(), ZERO, elsewhere.get());
    }
    return single(
        MeasureKind.ZERO_ERROR,
        new Location.Point(taken.lowest()),
        taken.lowest(),
        Direction.DOWN,
        ZERO);
  }

  private Measure single(
      MeasureKind kind, Location place, double setpoint, Direction direction, String method) {
    Optional<List<RestReading>> cycles = taken.whole(setpoint, direction);
    Optional<String> why =
        budget.instruments().lacking().or(() -> taken.lackingThere(setpoint, direction));
    if (why.isPresent() || cycles.isEmpty()) {
      return none(kind, place, method, why.orElse("not measured"));
    }
    double value = characteristic.error(setpoint, direction).orElseThrow();
    return value(kind, place, value, budget.error(cycles.get()), method, note);
  }

  private Measure span() {
    String method = "span-error/2";
    Optional<List<RestReading>> top = taken.whole(taken.highest(), Direction.UP);
    Optional<List<RestReading>> bottom = taken.whole(taken.lowest(), Direction.DOWN);
    Optional<String> why =
        budget
            .instruments()
            .lacking()
            .or(() -> notAnEnd(taken.lowest(), CLOSED))
            .or(() -> notAnEnd(taken.highest(), OPEN))
            .or(() -> taken.lacking(taken.highest(), Direction.UP))
            .or(() -> taken.lacking(taken.lowest(), Direction.DOWN));
    if (why.isPresent() || top.isEmpty() || bottom.isEmpty()) {
      return none(MeasureKind.SPAN_ERROR, Location.whole(), method, why.orElse("not measured"));
    }
    List<Component> components = new ArrayList<>();
    components.addAll(
        PositionBudget.placed(budget.error(top.get()), percent(taken.highest()), 1.0));
    components.addAll(
        PositionBudget.placed(budget.error(bottom.get()), percent(taken.lowest()), -1.0));
    double value = characteristic.spanError().orElseThrow();
    return value(MeasureKind.SPAN_ERROR, Location.whole(), value, components, method, note);
  }

  /**
   * Linearity of the average curve. An accuracy bound says nothing of the error's shape, so it does
   * not cancel here: it counts at every point that the line rests on.
   */
  private Measure linearity(MeasureKind kind, String method) {
    Optional<String> why = budget.instruments().lacking().or(taken::anyLacking);
    if (why.isPresent() || characteristic.setpoints().size() < 3) {
      return none(
          kind, Location.whole(), method, why.orElse("linearity needs three points or more"));
    }
    Linearity.Deviation deviation = DrawnTravel.deviation(kind, characteristic.averageCurve());
    Map<Double, Double> weights = new TreeMap<>();
    bent(kind, deviation).weights().forEach(w -> weights.merge(w.x(), w.weight(), Double::sum));
    List<Component> components = new ArrayList<>();
    weights.forEach(
        (x, weight) -> {
          if (Math.abs(weight) > 1.0e-12) {
            components.addAll(averaged(x, weight));
          }
        });
    Measure largest =
        value(
            kind,
            new Location.Point(deviation.at()),
            deviation.deviation(),
            components,
            method,
            "average of up and down");
    return Measures.drawn(largest, drawn().linearity(kind, largest.budget().orElseThrow()));
  }

  /**
   * What the deviation depends on. A curve that is straight to the last digit departs from its line
   * nowhere more than elsewhere: a bend in the middle would be the largest there.
   */
  private Linearity.Deviation bent(MeasureKind kind, Linearity.Deviation deviation) {
    if (Math.abs(deviation.deviation()) > STRAIGHT_PERCENT) {
      return deviation;
    }
    List<Linearity.Point> curve = new ArrayList<>(characteristic.averageCurve());
    int middle = curve.size() / 2;
    Linearity.Point point = curve.get(middle);
    curve.set(middle, new Linearity.Point(point.x(), point.y() + 1.0));
    return DrawnTravel.deviation(kind, curve);
  }

  private DrawnTravel drawn() {
    if (drawn.isEmpty()) {
      drawn = Optional.of(new DrawnTravel(taken, budget, characteristic));
    }
    return drawn.get();
  }

  private List<Component> averaged(double setpoint, double weight) {
    List<List<RestReading>> sides = new ArrayList<>();
    for (Direction direction : Direction.values()) {
      taken.whole(setpoint, direction).ifPresent(sides::add);
    }
    RestReading any = sides.get(0).get(0);
    List<Component> components = new ArrayList<>();
    components.addAll(
        PositionBudget.placed(
            budget.instruments().accuracy(setpoint, any.meanPercent()), percent(setpoint), weight));
    for (List<RestReading> side : sides) {
      List<Component> own = new ArrayList<>(budget.instruments().steps(setpoint));
      own.addAll(budget.rest(side));
      String place = percent(setpoint) + " " + side.get(0).direction().text();
      components.addAll(PositionBudget.placed(own, place, weight / sides.size()));
    }
    return components;
  }

  private Measure value(
      MeasureKind kind,
      Location place,
      double value,
      List<Component> components,
      String method,
      String words) {
    return Measures.value(kind, place, taken.truth(), value, components, method, words)
        .of(budget.scope());
  }

  private Measure none(MeasureKind kind, Location place, String method, String reason) {
    return Measures.none(kind, place, taken.truth(), method, reason);
  }

  private static String percent(double setpoint) {
    return Numbers.upTo(setpoint, 3) + " %";
  }
}
