package org.benchstroke.core.model;

/**
 * The winding's temperature: C·dΘ/dt = P − (Θ − Θ_a)/R_th with P as the square of the current. The
 * step is exact for a constant P. The thermal switch opens and closes by it. Common practice, no
 * source.
 */
final class Heat {
  private final HeatParameters parameters;
  private final boolean warms;
  private final double share;
  private double celsius;
  private boolean open;

  Heat(HeatParameters parameters, double stepSeconds) {
    this.parameters = parameters;
    this.warms = parameters.runRiseKelvin() > 0.0;
    this.share = -StrictMath.expm1(-stepSeconds / parameters.timeConstantSeconds());
    this.celsius = parameters.ambientCelsius();
  }

  /** Whether it ever leaves ambient temperature. */
  boolean warms() {
    return warms;
  }

  /**
   * One step.
   *
   * @param current of the motor, × running without load
   */
  void step(double current) {
    double goal = parameters.ambientCelsius() + parameters.runRiseKelvin() * current * current;
    celsius += (goal - celsius) * share;
    open =
        open
            ? celsius > parameters.tripCelsius() - parameters.resetKelvin()
            : celsius >= parameters.tripCelsius();
  }

  /** Whether the thermal switch cuts the motor. */
  boolean open() {
    return open;
  }

  double celsius() {
    return celsius;
  }

  /** What the feedback shows too much by it, % of span. */
  double driftPercent() {
    return (celsius - parameters.ambientCelsius()) * parameters.driftPercentPerKelvin();
  }
}
