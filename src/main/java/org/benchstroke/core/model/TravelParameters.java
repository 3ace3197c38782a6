package org.benchstroke.core.model;

/**
 * The nominal travel, and the mechanical stops around it. Immutable.
 *
 * @param spanDegrees the nominal travel from 0 to 100 %, °, 10..360; it sits inside the stops
 * @param closedStopDegrees the mechanical stop beyond closed, °, −45..0
 * @param openStopDegrees the mechanical stop near open, °, at most 45 from the span; before it, the
 *     unit can't open fully
 */
public record TravelParameters(
    double spanDegrees, double closedStopDegrees, double openStopDegrees) {
  public TravelParameters {
    Require.within("span, °,", spanDegrees, 10, 360);
    Require.within("closed stop, °,", closedStopDegrees, -45, 0);
    Require.within("open stop, °,", openStopDegrees, spanDegrees - 45, spanDegrees + 45);
    Require.below("closed stop", closedStopDegrees, "open stop", openStopDegrees);
  }

  /** The size of a per cent of the span, °. */
  public double degreesPerPercent() {
    return spanDegrees / 100.0;
  }
}
