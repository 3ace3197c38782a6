package org.benchstroke.core.analysis;

import java.util.List;
import java.util.Optional;

/**
 * Which simple shape a step response has: constant speed (dead time, ramp, even slowing down),
 * first order with dead time, or second order with dead time. Each is fitted by least squares
 * (Levenberg–Marquardt) to at most 400 means of neighbouring samples from the step until twice the
 * time that the response took. Immutable.
 *
 * @param fits the three, the best one first; empty if there is nothing to fit
 * @param explained whether the best leaves no more than three times the noise or 1 % of the change;
 *     common practice, no source
 * @param reason why there is no fit, or why the best doesn't explain the response; else empty
 */
public record StepShape(List<Fit> fits, boolean explained, String reason) {
  /** The shapes. */
  public enum Kind {
    CONSTANT_SPEED("constant speed"),
    FIRST_ORDER("first order"),
    SECOND_ORDER("second order");

    private final String text;

    Kind(String text) {
      this.text = text;
    }

    public String text() {
      return text;
    }
  }

  /**
   * A fitted parameter.
   *
   * @param name what it is
   * @param unit its unit; empty for a number
   * @param value its value
   * @param standard its standard uncertainty, from the covariance (JᵀJ)⁻¹·s² of the fit, widened
   *     where neighbouring residuals are correlated; that of a dead time with the instant of the
   *     step and the stamps
   */
  public record Parameter(String name, String unit, double value, double standard) {}

  /**
   * One shape fitted.
   *
   * @param kind the shape
   * @param parameters constant speed: dead time, speed, coast; first order: dead time, time
   *     constant; second order: dead time, damping ratio, natural frequency; then for each the
   *     position before and the change
   * @param residualPercent root mean square of what it leaves, with the degrees of freedom, %
   * @param degreesOfFreedom points less parameters
   */
  public record Fit(
      Kind kind, List<Parameter> parameters, double residualPercent, int degreesOfFreedom) {
    public Fit {
      parameters = List.copyOf(parameters);
    }

    /** A parameter by its name. */
    public Optional<Parameter> parameter(String name) {
      return parameters.stream().filter(p -> p.name().equals(name)).findFirst();
    }
  }

  public StepShape {
    fits = List.copyOf(fits);
  }

  /** The shape that leaves least; empty if nothing was fitted. */
  public Optional<Fit> best() {
    return fits.stream().findFirst();
  }

  /**
   * Fits the shapes.
   *
   * @param trace as for {@link StepResponse#of}
   * @param step the step
   * @param response what was measured of the same trace
   */
  public static StepShape of(Trace trace, Step step, StepResponse response) {
    return ShapeFit.of(trace, step, response);
  }

  static StepShape none(String reason) {
    return new StepShape(List.of(), false, reason);
  }
}
