package org.benchstroke.aids.diagnosis;

import java.util.List;

/**
 * A cause with its probability.
 *
 * @param cause the cause
 * @param probability 0 to 1; only as good as the likelihoods, which are counted on simulated units
 * @param evidenceFor what was seen and speaks for it
 * @param evidenceAgainst what it would show, but was not seen
 */
public record RankedCause(
    Cause cause, double probability, List<Evidence> evidenceFor, List<Evidence> evidenceAgainst) {
  public RankedCause {
    evidenceFor = List.copyOf(evidenceFor);
    evidenceAgainst = List.copyOf(evidenceAgainst);
  }
}
