package org.benchstroke.model;

/**
 * What lies between motor and stem: gear, output shaft, linkage, coupling, stem. Immutable.
 *
 * @param spanDegrees the nominal travel from 0 to 100 %, °, 10..360; it sits inside the stops
 * @param closedStopDegrees the mechanical stop beyond closed, °, −45..0
 * @param openStopDegrees the mechanical stop near open, °, at most 45 from the span; before it, the
 *     unit can't open fully
 * @param gearPlayPercent play between motor and output shaft, % of span, total, 0..20
 * @param sensorPlayPercent play between the sensor and what it sits on, % of span, total, 0..20
 * @param couplingPlayPercent slack between output shaft and stem, % of span, total, 0..20
 * @param linkagePercent how far the linkage between output shaft and stem bends, % of span, ±10: at
 *     25 % of travel the stem is ahead by so much, at 75 % behind
 * @param quadrantDegrees by what angle the stem was mounted off, °, ±180
 * @param friction of the stem
 * @param startPercent where the unit stands at first, % of span, 0..100
 */
public record MechanicsParameters(
    double spanDegrees,
    double closedStopDegrees,
    double openStopDegrees,
    double gearPlayPercent,
    double sensorPlayPercent,
    double couplingPlayPercent,
    double linkagePercent,
    double quadrantDegrees,
    FrictionParameters friction,
    double startPercent) {
  public MechanicsParameters {
    Require.within("span, °,", spanDegrees, 10, 360);
    Require.within("closed stop, °,", closedStopDegrees, -45, 0);
    Require.within("open stop, °,", openStopDegrees, spanDegrees - 45, spanDegrees + 45);
    Require.below("closed stop", closedStopDegrees, "open stop", openStopDegrees);
    Require.within("gear play, %,", gearPlayPercent, 0, 20);
    Require.within("sensor play, %,", sensorPlayPercent, 0, 20);
    Require.within("coupling play, %,", couplingPlayPercent, 0, 20);
    Require.within("bend of the linkage, %,", linkagePercent, -10, 10);
    Require.within("quadrant, °,", quadrantDegrees, -180, 180);
    Require.within("start, %,", startPercent, 0, 100);
  }

  static MechanicsParameters baseline() {
    return new MechanicsParameters(
        90.0, -2.0, 92.0, 0.0, 0.0, 0.0, 0.0, 0.0, FrictionParameters.baseline(), 40.0);
  }

  /** The size of a per cent of the span, °. */
  double degreesPerPercent() {
    return spanDegrees / 100.0;
  }

  /** Another travel, with its stops. */
  public MechanicsParameters withTravel(double span, double closedStop, double openStop) {
    return new MechanicsParameters(
        span,
        closedStop,
        openStop,
        gearPlayPercent,
        sensorPlayPercent,
        couplingPlayPercent,
        linkagePercent,
        quadrantDegrees,
        friction,
        startPercent);
  }

  /** Other play, % of span: in the gear, at the sensor, at the coupling. */
  public MechanicsParameters withPlay(double gear, double sensor, double coupling) {
    return new MechanicsParameters(
        spanDegrees,
        closedStopDegrees,
        openStopDegrees,
        gear,
        sensor,
        coupling,
        linkagePercent,
        quadrantDegrees,
        friction,
        startPercent);
  }

  /** Another linkage, and another angle of the stem on it. */
  public MechanicsParameters withLinkage(double bendPercent, double quadrant) {
    return new MechanicsParameters(
        spanDegrees,
        closedStopDegrees,
        openStopDegrees,
        gearPlayPercent,
        sensorPlayPercent,
        couplingPlayPercent,
        bendPercent,
        quadrant,
        friction,
        startPercent);
  }

  /** Standing elsewhere at first, % of span. */
  public MechanicsParameters startingAt(double percent) {
    return new MechanicsParameters(
        spanDegrees,
        closedStopDegrees,
        openStopDegrees,
        gearPlayPercent,
        sensorPlayPercent,
        couplingPlayPercent,
        linkagePercent,
        quadrantDegrees,
        friction,
        percent);
  }

  public MechanicsParameters withFriction(FrictionParameters other) {
    return new MechanicsParameters(
        spanDegrees,
        closedStopDegrees,
        openStopDegrees,
        gearPlayPercent,
        sensorPlayPercent,
        couplingPlayPercent,
        linkagePercent,
        quadrantDegrees,
        other,
        startPercent);
  }

  /** The same friction along the whole travel. */
  public MechanicsParameters withFriction(double stickPercent, double slidePercent) {
    return withFriction(FrictionParameters.everywhere(stickPercent, slidePercent));
  }
}
