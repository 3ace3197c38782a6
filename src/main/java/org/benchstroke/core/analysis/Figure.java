package org.benchstroke.core.analysis;

import java.util.Optional;

/**
 * A measure that may not be there. Immutable.
 *
 * @param estimate its value; empty if there is none
 * @param reason why there is none, in words; else empty
 */
public record Figure(Optional<Estimate> estimate, String reason) {
  static Figure of(Estimate estimate) {
    return new Figure(Optional.of(estimate), "");
  }

  static Figure absent(String reason) {
    return new Figure(Optional.empty(), reason);
  }

  public boolean isPresent() {
    return estimate.isPresent();
  }

  /**
   * The value where it is known to be there.
   *
   * @throws java.util.NoSuchElementException if it is absent
   */
  public double value() {
    return estimate.orElseThrow().value();
  }
}
