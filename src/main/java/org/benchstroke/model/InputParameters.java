package org.benchstroke.model;

/**
 * The signal loop up to the unit's terminals. Immutable.
 *
 * @param complianceVolts the voltage with which the source can drive the loop, V, 1..60
 * @param loopOhms the resistance of input and wiring, Ω, 1..100000
 * @param groundMilliamps what a second earth adds to the unit's input, mA, ±5; a meter in the loop
 *     does not see it
 * @param humMilliamps amplitude of line hum at the unit's input, mA, 0..5
 * @param humHertz its frequency, Hz, 1..400
 */
public record InputParameters(
    double complianceVolts,
    double loopOhms,
    double groundMilliamps,
    double humMilliamps,
    double humHertz) {
  public InputParameters {
    Require.within("compliance, V,", complianceVolts, 1, 60);
    Require.within("loop resistance, Ω,", loopOhms, 1, 100_000);
    Require.within("ground offset, mA,", groundMilliamps, -5, 5);
    Require.within("hum, mA,", humMilliamps, 0, 5);
    Require.within("hum frequency, Hz,", humHertz, 1, 400);
  }

  static InputParameters baseline() {
    return new InputParameters(24.0, 250.0, 0.0, 0.0, 50.0);
  }
}
