package org.benchstroke.core.model;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.SignalRange;

/**
 * What a perfect test would report of a unit: no noise, no hum, a cold motor, instruments without
 * error, all the time that it takes. What the parameters hold is told as it is; the rest is found
 * by running the model. A value is empty where the unit has none, such as that of a point at which
 * it never comes to rest. Immutable.
 *
 * @param points travel error at each point, lowest first
 * @param zeroPercent feedback error at the lowest point, % of travel
 * @param spanPercent feedback error at the highest point less that at the lowest, % of travel
 * @param stemZeroPercent the same of the stem
 * @param stemSpanPercent the same of the stem
 * @param startPercent h_on, the error above which the motor starts, % of span
 * @param stopPercent h_off, the error at which it is stopped before its setpoint, % of span
 * @param deadBandPercent D at mid travel, mean of both approaches, % of travel
 * @param resolutionPercent R at mid travel, likewise
 * @param coastPercent how far the output shaft goes on once the running motor is off, opening, mid
 *     travel, % of span
 * @param openingSeconds stroke time: (t95 − t5)/0.9 of the feedback, s
 * @param closingSeconds the same, closing
 * @param deadTime from a step of 10 % at mid travel, away from the approach
 * @param reversalDeadTime the same for a step back
 * @param switches angles of the output shaft at which each switch trips and resets, °, by name
 */
public record UnitTruth(
    List<Point> points,
    OptionalDouble zeroPercent,
    OptionalDouble spanPercent,
    OptionalDouble stemZeroPercent,
    OptionalDouble stemSpanPercent,
    OptionalDouble startPercent,
    OptionalDouble stopPercent,
    OptionalDouble deadBandPercent,
    OptionalDouble resolutionPercent,
    OptionalDouble coastPercent,
    OptionalDouble openingSeconds,
    OptionalDouble closingSeconds,
    Start deadTime,
    Start reversalDeadTime,
    Map<String, SwitchAngles> switches) {

  /**
   * How long a unit takes to start, mean over the controller's period.
   *
   * @param deadSeconds until its feedback has left its place by two steps, s: what a step response
   *     test without noise reports
   * @param firstMotionSeconds until what the sensor sees moves at all, s, which no reading shows
   */
  public record Start(OptionalDouble deadSeconds, OptionalDouble firstMotionSeconds) {
    static final Start NEVER = new Start(OptionalDouble.empty(), OptionalDouble.empty());
  }

  /** What the unit was ordered to do: errors are counted from it. */
  public record Ordered(SignalRange signal, Characteristic characteristic, SignalRange feedback) {}

  /**
   * Errors at a point, % of travel; the lowest point is only met from above, the highest from
   * below.
   *
   * @param percent the travel that is commanded
   * @param up feedback error, approached from below
   * @param down from above
   * @param stemUp stem error, approached from below
   * @param stemDown from above
   */
  public record Point(
      double percent,
      OptionalDouble up,
      OptionalDouble down,
      OptionalDouble stemUp,
      OptionalDouble stemDown) {}

  /** Where a switch trips and resets, °. */
  public record SwitchAngles(double tripDegrees, double resetDegrees) {}

  public UnitTruth {
    points = List.copyOf(points);
    switches = Collections.unmodifiableMap(new LinkedHashMap<>(switches));
  }

  /** Finds it; takes a second or so of computing. */
  public static UnitTruth of(ModelParameters parameters, Ordered ordered) {
    return new TruthRun(parameters, ordered).find();
  }
}
