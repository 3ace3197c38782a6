package org.benchstroke.core.model;

/**
 * The motor's winding as one mass, and the thermal switch in it. Immutable.
 *
 * @param timeConstantSeconds heat capacity times thermal resistance, s, 10..7200 (usual 900..1800)
 * @param runRiseKelvin how far it would warm up by running without load for ever, K, 0..300; 0 is a
 *     motor that never warms up
 * @param ambientCelsius temperature around it, and its own at first, °C, −40..80
 * @param tripCelsius where the thermal switch cuts the motor, °C, 60..200 (usual 110..135)
 * @param resetKelvin how far it must cool down to be switched on again, K, 1..60 (usual 20..30)
 * @param driftPercentPerKelvin what the position transmitter shows too much for each kelvin above
 *     ambient, % of span/K, ±0.5
 */
public record HeatParameters(
    double timeConstantSeconds,
    double runRiseKelvin,
    double ambientCelsius,
    double tripCelsius,
    double resetKelvin,
    double driftPercentPerKelvin)
    implements ModelParameters.Part {
  public HeatParameters {
    Require.within("thermal time constant, s,", timeConstantSeconds, 10, 7200);
    Require.within("rise by running, K,", runRiseKelvin, 0, 300);
    Require.within("ambient temperature, °C,", ambientCelsius, -40, 80);
    Require.within("thermal switch, °C,", tripCelsius, 60, 200);
    Require.within("reset of the thermal switch, K,", resetKelvin, 1, 60);
    Require.below("ambient", ambientCelsius, "thermal switch's reset", tripCelsius - resetKelvin);
    Require.within("drift of the feedback, %/K,", driftPercentPerKelvin, -0.5, 0.5);
  }

  static HeatParameters baseline() {
    return new HeatParameters(1200.0, 0.0, 23.0, 125.0, 25.0, 0.0);
  }

  /** A motor that warms up, and what that does to its feedback. */
  public HeatParameters withRise(double runRise, double driftPerKelvin) {
    return new HeatParameters(
        timeConstantSeconds, runRise, ambientCelsius, tripCelsius, resetKelvin, driftPerKelvin);
  }
}
