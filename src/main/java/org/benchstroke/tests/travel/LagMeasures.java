package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StaticCharacteristic.Lag;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.analysis.StaticCharacteristic.Passes;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.unit.MeasureKind;

/**
 * Hysteresis + dead band of one travel error test by one truth: down minus up, by adjacent passes
 * or by means of each direction. Both readings share source and meter, so that their accuracy
 * cancels; steps and rest don't. Immutable.
 */
final class LagMeasures {
  private final TravelReadings taken;
  private final PositionBudget budget;
  private final StaticCharacteristic characteristic;

  LagMeasures(TravelReadings taken, PositionBudget budget) {
    this.taken = taken;
    this.budget = budget;
    this.characteristic = new StaticCharacteristic(taken.readings());
  }

  /**
   * Each figure once: with one cycle both pairings give the same.
   *
   * @param meansAsked whether a limit asks for it by means all the same
   */
  List<Pairing> pairings(boolean meansAsked) {
    return once() && !meansAsked
        ? List.of(Pairing.ADJACENT_PASSES)
        : List.of(Pairing.ADJACENT_PASSES, Pairing.MEANS);
  }

  /** What there is to say of how a figure was paired. */
  String words(Pairing pairing) {
    return switch (pairing) {
      case ADJACENT_PASSES ->
          once()
              ? "one cycle: by means it is the same"
              : "largest difference between a pass and the next";
      case MEANS -> once() ? "one cycle: by adjacent passes it is the same" : "mean down − mean up";
    };
  }

  private boolean once() {
    return taken.spec().cycles() == 1;
  }

  /**
   * The largest of all points.
   *
   * @param meansAsked whether a limit asks for the figure by means
   */
  List<Measure> all(boolean meansAsked) {
    return pairings(meansAsked).stream().map(this::largest).toList();
  }

  private Measure largest(Pairing pairing) {
    Optional<String> why = budget.instruments().lacking().or(taken::anyLacking);
    Optional<Lag> lag = characteristic.hysteresisPlusDeadBand(pairing);
    if (why.isPresent() || lag.isEmpty()) {
      return none(pairing, Location.whole(), why.orElse("no point was approached from both sides"));
    }
    Measure largest = at(lag.get().setpointPercent(), pairing);
    List<DrawnLag.Place> places =
        turned().stream().map(at -> place(at, pairing, 0.0, List.of())).toList();
    return Measures.drawn(largest, new DrawnLag(budget, places).half());
  }

  /** The setpoints that were approached from both sides, %. */
  List<Double> turned() {
    return characteristic.setpoints().stream()
        .filter(at -> taken.whole(at, Direction.UP).isPresent())
        .filter(at -> taken.whole(at, Direction.DOWN).isPresent())
        .toList();
  }

  /** That of one of them. */
  Measure at(double at, Pairing pairing) {
    Optional<String> why =
        budget
            .instruments()
            .lacking()
            .or(() -> taken.lacking(at, Direction.UP))
            .or(() -> taken.lacking(at, Direction.DOWN));
    if (why.isPresent()) {
      return none(pairing, new Location.Point(at), why.get());
    }
    if (pairing == Pairing.ADJACENT_PASSES && !once()) {
      Passes most =
          characteristic.adjacentPasses(at).stream()
              .max(Comparator.comparingDouble(p -> Math.abs(p.lag().percent())))
              .orElseThrow();
      String words =
          "up in cycle "
              + most.up().cycle()
              + ", down in cycle "
              + most.down().cycle()
              + "; "
              + words(pairing);
      double value = most.lag().percent();
      return value(at, pairing, value, List.of(most.up()), List.of(most.down()), words);
    }
    List<RestReading> up = taken.whole(at, Direction.UP).orElseThrow();
    List<RestReading> down = taken.whole(at, Direction.DOWN).orElseThrow();
    return value(at, pairing, byMeans(at), up, down, words(pairing));
  }

  private double byMeans(double at) {
    return characteristic.error(at, Direction.DOWN).orElseThrow()
        - characteristic.error(at, Direction.UP).orElseThrow();
  }

  private Measure value(
      double at,
      Pairing pairing,
      double value,
      List<RestReading> up,
      List<RestReading> down,
      String words) {
    List<Component> components = new ArrayList<>();
    List<Component> steps = budget.instruments().steps(at);
    for (Direction direction : Direction.values()) {
      boolean rises = direction == Direction.UP;
      List<Component> own = new ArrayList<>(steps);
      own.addAll(budget.rest(rises ? up : down));
      String place = percent(at) + " " + direction.text();
      components.addAll(PositionBudget.placed(own, place, rises ? -1.0 : 1.0));
    }
    components.addAll(budget.instruments().meterBetween(at, at + value));
    components.addAll(
        PositionBudget.creep(
            budget.creepPercent(Direction.UP) + budget.creepPercent(Direction.DOWN)));
    return Measures.value(
            kind(pairing),
            new Location.Point(at),
            taken.truth(),
            value,
            components,
            method(pairing),
            words)
        .of(budget.scope());
  }

  /**
   * What U is drawn from at one of them.
   *
   * @param less what is taken off the magnitude there, %
   */
  DrawnLag.Place place(double at, Pairing pairing, double less, List<Component> lessInputs) {
    List<DrawnLag.Pass> passes = new ArrayList<>();
    if (pairing == Pairing.MEANS) {
      for (Direction direction : List.of(Direction.UP, Direction.DOWN)) {
        List<RestReading> cycles = taken.whole(at, direction).orElseThrow();
        passes.add(new DrawnLag.Pass(direction, budget.rest(cycles)));
      }
    } else {
      taken.readings().stream()
          .filter(r -> r.setpointPercent() == at)
          .forEach(r -> passes.add(new DrawnLag.Pass(r.direction(), budget.rest(List.of(r)))));
    }
    double upAt = at + characteristic.error(at, Direction.UP).orElseThrow();
    double lag = byMeans(at);
    List<Component> shared = new ArrayList<>(budget.instruments().meterBetween(upAt, upAt + lag));
    // What is written for a point and a side is the same in every cycle.
    shared.addAll(budget.instruments().steps(at));
    shared.addAll(budget.instruments().steps(at));
    return new DrawnLag.Place(lag, less, passes, shared, lessInputs);
  }

  private Measure none(Pairing pairing, Location place, String reason) {
    return Measures.none(kind(pairing), place, taken.truth(), method(pairing), reason);
  }

  private static MeasureKind kind(Pairing pairing) {
    return switch (pairing) {
      case ADJACENT_PASSES -> MeasureKind.HYSTERESIS_PLUS_DEAD_BAND;
      case MEANS -> MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS;
    };
  }

  private static String method(Pairing pairing) {
    return switch (pairing) {
      case ADJACENT_PASSES -> "hysteresis-plus-dead-band/3";
      case MEANS -> "hysteresis-plus-dead-band-means/3";
    };
  }

  private static String percent(double setpoint) {
    return Numbers.upTo(setpoint, 3) + " %";
  }
}
