package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.bench.UnitType;
import org.benchstroke.quantity.Position;

/** The moves that tests are made of, with their nominal durations on a unit type. Immutable. */
final class Moves {
  static final Position CLOSED = Position.ofPercent(0.0);
  static final Position OPEN = Position.ofPercent(100.0);

  /** From an unknown place half the travel is what to expect, %. */
  private static final double EXPECTED_PERCENT = 50.0;

  private final UnitType unit;
  private final double samplePeriodSeconds;

  Moves(UnitType unit, double samplePeriodSeconds) {
    this.unit = unit;
    this.samplePeriodSeconds = samplePeriodSeconds;
  }

  UnitType unit() {
    return unit;
  }

  /** The quiet window of the rest rule on this bench, s. */
  double windowSeconds() {
    return unit.restWindowSeconds(samplePeriodSeconds);
  }

  /** To a setpoint from wherever the unit stands. */
  Action anywhere(String point, Position to) {
    double seconds = seconds(EXPECTED_PERCENT);
    return new Action.Approach(point, OptionalDouble.empty(), to, 0, false, seconds);
  }

  /** From one setpoint to another. */
  Action approach(String point, Position from, Position to, int cycle, boolean clean) {
    double change = to.percent() - from.percent();
    OptionalDouble start = OptionalDouble.of(from.percent());
    return new Action.Approach(point, start, to, cycle, clean, seconds(change));
  }

  /** Full strokes, there and back, from closed. */
  List<Action> strokes(String name, int count) {
    List<Action> actions = new ArrayList<>();
    actions.add(anywhere(name + " start", CLOSED));
    for (int cycle = 1; cycle <= count; cycle++) {
      actions.add(approach(name + " opening", CLOSED, OPEN, cycle, false));
      actions.add(approach(name + " closing", OPEN, CLOSED, cycle, false));
    }
    return actions;
  }

  /** Nominal time of a change of position and the rest after it, s. */
  double seconds(double changePercent) {
    double travel = unit.travelSeconds(changePercent);
    return travel + Math.max(unit.practice().restEarliestSeconds(), windowSeconds());
  }
}
