package org.benchstroke.core.model;

/**
 * The signal loop up to the unit's terminals. Immutable.
 *
 * @param complianceVolts the voltage with which the source can drive the loop, V, 1..60
 * @param loopOhms the resistance of input and wiring, Ω, 1..100000
 * @param groundMilliamps what a second earth adds to the unit's input, mA, ±5; a meter in the loop
 *     does not see it
 * @param groundMotorMilliamps what it adds on top while the motor is on, mA, ±5
 * @param humMilliamps amplitude of line hum at the unit's input, mA, 0..5
 * @param humHertz its frequency, Hz, 1..400
 * @param noiseMilliamps standard deviation of what is coupled in at random, mA, 0..5, independent
 *     from one millisecond to the next
 */
public record InputParameters(
    double complianceVolts,
    double loopOhms,
    double groundMilliamps,
    double groundMotorMilliamps,
    double humMilliamps,
    double humHertz,
    double noiseMilliamps)
    implements ModelParameters.Part {
  public InputParameters {
    Require.within("compliance, V,", complianceVolts, 1, 60);
    Require.within("loop resistance, Ω,", loopOhms, 1, 100_000);
    Require.within("ground offset, mA,", groundMilliamps, -5, 5);
    Require.within("ground offset by the motor, mA,", groundMotorMilliamps, -5, 5);
    Require.within("hum, mA,", humMilliamps, 0, 5);
    Require.within("hum frequency, Hz,", humHertz, 1, 400);
    Require.within("noise on the signal, mA,", noiseMilliamps, 0, 5);
  }

  static InputParameters baseline() {
    return new InputParameters(24.0, 250.0, 0.0, 0.0, 0.0, 50.0, 0.0);
  }

  /** Without hum and noise. */
  public InputParameters quiet() {
    return new InputParameters(
        complianceVolts, loopOhms, groundMilliamps, groundMotorMilliamps, 0.0, humHertz, 0.0);
  }

  /** Another source and another loop. */
  public InputParameters withLoop(double volts, double ohms) {
    return new InputParameters(
        volts, ohms, groundMilliamps, groundMotorMilliamps, humMilliamps, humHertz, noiseMilliamps);
  }
}
