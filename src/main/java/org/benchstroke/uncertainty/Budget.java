package org.benchstroke.uncertainty;

import java.util.List;

/**
 * An uncertainty budget: uncorrelated inputs, first order (JCGM 100:2008 5.1). Immutable, safe for
 * any thread.
 *
 * @param unit the unit of the measure
 * @param components its inputs
 */
public record Budget(String unit, List<Component> components) {
  /** The coverage probability that is used unless another was agreed. */
  public static final double COVERAGE = 0.95;

  public Budget {
    components = List.copyOf(components);
  }

  /** u_c: the root of the sum of the squared contributions (JCGM 100:2008 5.1.2, equation 10). */
  public double combinedStandard() {
    double squares = 0.0;
    for (Component component : components) {
      squares += component.contribution() * component.contribution();
    }
    return Math.sqrt(squares);
  }

  /**
   * ν_eff by Welch–Satterthwaite (JCGM 100:2008 G.4.1, equation G.2b), not yet truncated. Infinite
   * if no contribution with finite degrees of freedom is above zero.
   */
  public double effectiveDegreesOfFreedom() {
    double combined = combinedStandard();
    double sum = 0.0;
    for (Component component : components) {
      // As shares of u_c, so that tiny uncertainties don't vanish in their fourth powers.
      double share = combined > 0.0 ? component.contribution() / combined : 0.0;
      sum += Math.pow(share, 4) / component.degreesOfFreedom();
    }
    return sum > 0.0 ? 1.0 / sum : Double.POSITIVE_INFINITY;
  }

  /** The expanded uncertainty for a coverage of 95 %. */
  public Expanded expand() {
    return expand(COVERAGE);
  }

  /**
   * The expanded uncertainty U = t_p(ν_eff)·u_c (JCGM 100:2008 G.4.1).
   *
   * @param coverage p, above 0 and below 1
   */
  public Expanded expand(double coverage) {
    double standard = combinedStandard();
    double degrees = effectiveDegreesOfFreedom();
    double k = CoverageFactor.of(coverage, degrees);
    return new Expanded(standard, degrees, coverage, k, k * standard);
  }
}
