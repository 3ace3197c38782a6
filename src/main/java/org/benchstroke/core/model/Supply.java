package org.benchstroke.core.model;

/**
 * The supply of the motor: V = V_s − R·I at the terminals, with I = I_idle + I_run·(1 − q +
 * r·V_r·q) while it is driven. The effort q is 1 for a motor that stands and T_L/T_st for one that
 * runs at the speed that its load allows, and straight between: the line of current over speed of a
 * DC machine with constant excitation. For an AC motor that is a simplification; amplitudes are
 * added as if in phase. Common practice, no source.
 */
final class Supply {
  private final SupplyParameters parameters;
  private final double sourceVolts;
  private final boolean stiff;
  private double volts;

  /**
   * A supply.
   *
   * @param sourceRatio the voltage before the leads, × rated
   */
  Supply(SupplyParameters parameters, double sourceRatio) {
    this.parameters = parameters;
    this.sourceVolts = sourceRatio * parameters.ratedVolts();
    this.stiff = parameters.leadOhms() == 0.0;
    this.volts = sourceVolts;
  }

  /** Whether the voltage at the terminals never changes. */
  boolean stiff() {
    return stiff;
  }

  /** One step: the voltage at the terminals, × rated. */
  double step(boolean driven, double effort) {
    double steady = parameters.idleAmperes();
    double perVolt = 0.0;
    if (driven) {
      steady += parameters.runAmperes() * (1.0 - effort);
      perVolt = stallAmperes() * effort / parameters.ratedVolts();
    }
    double ohms = parameters.leadOhms();
    volts = Math.max(0.0, (sourceVolts - ohms * steady) / (1.0 + ohms * perVolt));
    return volts / parameters.ratedVolts();
  }

  /** The voltage at the motor's terminals while the supply is on, V. */
  double volts() {
    return volts;
  }

  /** What flows while the supply is on, A. */
  double amperes(boolean driven, double effort) {
    return parameters.idleAmperes() + (driven ? motorAmperes(effort) : 0.0);
  }

  /** What the motor draws, × running without load. */
  double relative(double effort) {
    return motorAmperes(effort) / parameters.runAmperes();
  }

  private double motorAmperes(double effort) {
    double ratio = volts / parameters.ratedVolts();
    return parameters.runAmperes() * (1.0 - effort) + stallAmperes() * ratio * effort;
  }

  private double stallAmperes() {
    return parameters.stallRatio() * parameters.runAmperes();
  }
}
