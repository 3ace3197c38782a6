package org.benchstroke.core.model;

/**
 * A stem in its packing, driven through a spring: stuck until the twist exceeds T_s/k, then at once
 * carried on until the spring's twist is T_c/k, or beyond by its mass. A step is (1 + o)·(T_s −
 * T_c)/k long: with o = 1 that is the undamped mass, whose energy carries it as far beyond T_c as
 * it began before it. Common practice, no source.
 */
final class Friction {
  private final double stick;
  private final double rest;
  private final double from;
  private final double to;
  private double position;

  /**
   * At rest.
   *
   * @param degreesPerPercent the size of a per cent of the span
   */
  Friction(FrictionParameters parameters, double degreesPerPercent, double position) {
    double slip = parameters.stickPercent() - parameters.slidePercent();
    this.stick = parameters.stickPercent() * degreesPerPercent;
    this.rest = (parameters.slidePercent() - parameters.overshoot() * slip) * degreesPerPercent;
    this.from = parameters.fromPercent() * degreesPerPercent;
    this.to = parameters.toPercent() * degreesPerPercent;
    this.position = position;
  }

  /** The stem's position for its driver's. */
  double follow(double driver) {
    if (position < from || position > to) {
      position = driver;
      return position;
    }
    double twist = driver - position;
    if (Math.abs(twist) > stick) {
      position = driver - Math.copySign(rest, twist);
    }
    return position;
  }
}
