package org.benchstroke.core.quantity;

/**
 * An angle of the valve stem or output shaft, 0° at the closed mark.
 *
 * <p>Unit: degree. Any finite value. Immutable, safe for any thread.
 *
 * @param degrees the angle in degrees
 */
public record Angle(double degrees) {
  public Angle {
    if (!Double.isFinite(degrees)) {
      throw new IllegalArgumentException("an angle must be finite, not " + degrees + "°");
    }
  }

  public static Angle ofDegrees(double degrees) {
    return new Angle(degrees);
  }

  @Override
  public String toString() {
    return Numbers.fixed(degrees, 2) + "°";
  }
}
