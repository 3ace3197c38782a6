package org.benchstroke.uncertainty;

import java.util.List;

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
}
