package org.benchstroke.procedure;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Position;

/** One thing that a run does. A procedure expands to a list of these, purely. Immutable. */
public sealed interface Action {

  /** What it is for. */
  Aim aim();

  /** Nominal duration, s: for the seconds left. */
  double seconds();

  /**
   * Goes to a setpoint and waits there for rest.
   *
   * @param aim what it is for
   * @param from the setpoint before, % of travel; empty from wherever the unit stands
   * @param to the setpoint
   * @param cycle from 1; 0 where it does not apply
   * @param clean whether it must be a one-way approach: one that came back is made again
   * @param seconds nominal duration, s
   */
  record Approach(
      Aim aim, OptionalDouble from, Position to, int cycle, boolean clean, double seconds)
      implements Action {}

  /**
   * Stays at the setpoint in force and watches, whatever the unit does.
   *
   * @param aim what it is for
   * @param seconds how long, s
   */
  record Hold(Aim aim, double seconds) implements Action {}

  /**
   * Moves the setpoint evenly, a small step with every sample.
   *
   * @param aim what it is for
   * @param from the setpoint that it begins at, where the unit already stands
   * @param to the setpoint that it ends at
   * @param seconds how long it takes, s
   */
  record Ramp(Aim aim, Position from, Position to, double seconds) implements Action {}

  /**
   * Switches the motor supply off, watches, switches it on again and waits for rest.
   *
   * @param aim what it is for: whether the unit is at rest or moving then
   * @param at where a moving unit is when it is cut off
   * @param towards the setpoint that a moving unit is sent to; empty for a unit at rest
   * @param awaySeconds how long the supply is off, s
   * @param earliestSeconds after its return rest is not believed before, s
   * @param timeoutSeconds after its return the wait ends then, s
   * @param seconds nominal duration, s
   */
  record Cut(
      Aim aim,
      Position at,
      Optional<Position> towards,
      double awaySeconds,
      double earliestSeconds,
      double timeoutSeconds,
      double seconds)
      implements Action {}

  /**
   * Asks for a figure that a person measured with other means; nothing moves meanwhile.
   *
   * @param aim what it is for
   * @param name what is asked for: "insulation resistance"
   * @param unit its unit: "MΩ"
   * @param most no figure is larger, nor smaller than its opposite
   */
  record Note(Aim aim, String name, String unit, double most) implements Action {
    /** Nobody knows how long that takes. */
    @Override
    public double seconds() {
      return 0.0;
    }
  }

  /**
   * Approaches a place one way and finds the change of the signal at which the unit moves.
   *
   * @param aim what it is for: which place, which side
   * @param cycle from 1
   * @param from where the approach comes from
   * @param at the place
   * @param sign which way the signal changes then: 1 up, −1 down
   * @param coarsePercent the step until it moves, % of travel
   * @param finestPercent the step at the end, % of travel
   * @param mostPercent the largest change that is tried, % of travel
   * @param seconds nominal duration, s
   */
  record Staircase(
      Aim aim,
      int cycle,
      Position from,
      Position at,
      int sign,
      double coarsePercent,
      double finestPercent,
      double mostPercent,
      double seconds)
      implements Action {}

  /**
   * Takes the signal away and watches until the unit has come to rest.
   *
   * @param aim how it is lost
   * @param earliestSeconds rest is not believed before, s
   * @param timeoutSeconds the watch ends then, s
   * @param seconds nominal duration, s
   */
  record Lose(LossWay aim, double earliestSeconds, double timeoutSeconds, double seconds)
      implements Action {}
}
