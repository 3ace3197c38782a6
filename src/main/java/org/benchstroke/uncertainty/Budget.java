package org.benchstroke.uncertainty;

import java.util.List;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * An uncertainty budget: uncorrelated inputs, first order (JCGM 100:2008 5.1). Immutable.
 *
 * @param unit the unit of the measure
 * @param components its inputs
 */
public record Budget(String unit, List<Component> components) {
  public Budget {
    components = List.copyOf(components);
  }

  /** The expanded uncertainty: U = t_p(ν_eff)·u_c (JCGM 100:2008 G.4, Welch–Satterthwaite). */
  public Expanded expand(double coverage) {
    double variance = 0.0;
    double shares = 0.0;
    for (Component component : components) {
      double squared = component.contribution() * component.contribution();
      variance += squared;
      shares += squared * squared / component.degreesOfFreedom();
    }
    double freedom = shares == 0.0 ? Double.POSITIVE_INFINITY : variance * variance / shares;
    double forTable = Math.min(1e6, Math.max(1.0, freedom));
    double k =
        new TDistribution(null, forTable).inverseCumulativeProbability((1.0 + coverage) / 2.0);
    double standard = Math.sqrt(variance);
    return new Expanded(standard, freedom, coverage, k, k * standard);
  }
}
