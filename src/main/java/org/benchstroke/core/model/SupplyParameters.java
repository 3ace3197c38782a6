package org.benchstroke.core.model;

/**
 * The motor's supply up to its terminals, and the current that the motor draws. Immutable.
 *
 * @param ratedVolts the rated voltage, V, 5..500
 * @param leadOhms resistance of the leads, both ways, Ω, 0..50; 0 is a stiff supply
 * @param idleAmperes drawn while the motor stands and its supply is on, A, 0..10
 * @param runAmperes what the motor draws more while it runs without load, A, 0.01..50
 * @param stallRatio current of a stalled motor at the rated voltage, × {@code runAmperes}, 1..10
 *     (usual 2..6)
 */
public record SupplyParameters(
    double ratedVolts, double leadOhms, double idleAmperes, double runAmperes, double stallRatio)
    implements ModelParameters.Part {
  public SupplyParameters {
    Require.within("rated voltage, V,", ratedVolts, 5, 500);
    Require.within("lead resistance, Ω,", leadOhms, 0, 50);
    Require.within("idle current, A,", idleAmperes, 0, 10);
    Require.within("running current, A,", runAmperes, 0.01, 50);
    Require.within("stall current, × running,", stallRatio, 1, 10);
  }

  static SupplyParameters baseline() {
    return new SupplyParameters(24.0, 0.0, 0.1, 0.8, 4.0);
  }

  public SupplyParameters withLeads(double ohms) {
    return new SupplyParameters(ratedVolts, ohms, idleAmperes, runAmperes, stallRatio);
  }
}
