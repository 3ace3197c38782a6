package org.benchstroke.model;

/**
 * Stops, span, play and friction. Immutable.
 *
 * @param spanDegrees the calibrated travel from 0 to 100 %, °, 10..360; it sits inside the stops,
 *     as an auto-calibration backs off from the limits
 * @param closedStopDegrees the mechanical stop beyond closed, °, −45..0
 * @param openStopDegrees the mechanical stop beyond open, °, at least the span, at most 45 more
 * @param sensorPlayPercent play between gear and sensor, % of span, total, 0..20
 * @param couplingPlayPercent slack between output shaft and stem (after the sensor), % of span,
 *     total, 0..20
 * @param stickPercent twist that sets a stuck stem free, % of span, 0..20
 * @param slidePercent twist that remains while it slides, % of span, 0..{@code stickPercent}
 * @param startPercent where the unit stands at first, % of span, 0..100
 */
public record MechanicsParameters(
    double spanDegrees,
    double closedStopDegrees,
    double openStopDegrees,
    double sensorPlayPercent,
    double couplingPlayPercent,
    double stickPercent,
    double slidePercent,
    double startPercent) {
  public MechanicsParameters {
    Require.within("span, °,", spanDegrees, 10, 360);
    Require.within("closed stop, °,", closedStopDegrees, -45, 0);
    Require.within("open stop, °,", openStopDegrees, spanDegrees, spanDegrees + 45);
    Require.within("sensor play, %,", sensorPlayPercent, 0, 20);
    Require.within("coupling play, %,", couplingPlayPercent, 0, 20);
    Require.within("sticking twist, %,", stickPercent, 0, 20);
    Require.within("sliding twist, %,", slidePercent, 0, stickPercent);
    Require.within("start, %,", startPercent, 0, 100);
  }

  static MechanicsParameters baseline() {
    return new MechanicsParameters(90.0, -2.0, 92.0, 0.0, 0.0, 0.0, 0.0, 40.0);
  }

  public MechanicsParameters withCouplingPlay(double percent) {
    return new MechanicsParameters(
        spanDegrees,
        closedStopDegrees,
        openStopDegrees,
        sensorPlayPercent,
        percent,
        stickPercent,
        slidePercent,
        startPercent);
  }

  public MechanicsParameters withFriction(double stick, double slide) {
    return new MechanicsParameters(
        spanDegrees,
        closedStopDegrees,
        openStopDegrees,
        sensorPlayPercent,
        couplingPlayPercent,
        stick,
        slide,
        startPercent);
  }
}
