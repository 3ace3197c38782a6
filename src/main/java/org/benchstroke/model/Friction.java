package org.benchstroke.model;

/**
 * A stem in its packing, driven through a spring: stuck until the twist exceeds {@code stick}, then
 * sliding with the twist {@code slide} until its driver stands. A simple form without inertia.
 */
final class Friction {
  private final double stick;
  private final double slide;
  private boolean sliding;
  private double position;

  Friction(double stick, double slide, double position) {
    this.stick = stick;
    this.slide = slide;
    this.position = position;
  }

  /** The stem's position for its driver's. */
  double follow(double driver) {
    double twist = driver - position;
    double magnitude = Math.abs(twist);
    if (!sliding && magnitude > stick) {
      sliding = true;
    }
    if (sliding) {
      if (magnitude > slide) {
        position = driver - Math.copySign(slide, twist);
      } else {
        sliding = false;
      }
    }
    return position;
  }
}
