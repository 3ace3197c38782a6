package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.Aim.Stroke.Way;
import org.benchstroke.unit.UnitType;

/** The moves that tests are made of, with their nominal durations on a unit type. Immutable. */
public final class Moves {
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

  public UnitType unit() {
    return unit;
  }

  /** The quiet window of the rest rule on this bench, s. */
  public double windowSeconds() {
    return unit.restWindowSeconds(samplePeriodSeconds);
  }

  /** To a setpoint from wherever the unit stands. */
  public Action anywhere(Aim aim, Position to) {
    double seconds = seconds(EXPECTED_PERCENT);
    return new Action.Approach(aim, OptionalDouble.empty(), to, 0, false, seconds);
  }

  /** To where something begins, from wherever the unit stands. */
  public Action leadIn(String words, Position to) {
    return anywhere(new Aim.LeadIn(words), to);
  }

  /** From one setpoint to another. */
  public Action approach(Aim aim, Position from, Position to, int cycle, boolean clean) {
    double change = to.percent() - from.percent();
    OptionalDouble start = OptionalDouble.of(from.percent());
    return new Action.Approach(aim, start, to, cycle, clean, seconds(change));
  }

  /**
   * Full strokes, there and back, from closed.
   *
   * @param name whose, for people
   * @param tellAction whether the first of them is to tell which way the unit goes
   */
  public List<Action> strokes(String name, int count, boolean tellAction) {
    List<Action> actions = new ArrayList<>();
    actions.add(anywhere(new Aim.Stroke(name, Way.START, 0, tellAction), CLOSED));
    for (int cycle = 1; cycle <= count; cycle++) {
      Aim opening = new Aim.Stroke(name, Way.OPENING, cycle, tellAction);
      Aim closing = new Aim.Stroke(name, Way.CLOSING, cycle, tellAction);
      actions.add(approach(opening, CLOSED, OPEN, cycle, false));
      actions.add(approach(closing, OPEN, CLOSED, cycle, false));
    }
    return actions;
  }

  /** Nominal time of a change of position and the rest after it, s. */
  public double seconds(double changePercent) {
    double travel = unit.travelSeconds(changePercent);
    return travel + Math.max(unit.practice().restEarliestSeconds(), windowSeconds());
  }
}
