package org.benchstroke.commission;

import java.util.List;
import java.util.Optional;

/**
 * What came of the search for a register map. Immutable.
 *
 * @param best the likeliest map; empty if nothing explains the points
 * @param ties maps that explain the points as well as the best: the points don't tell them apart
 * @param others maps that explain the points too, but less likely ones
 */
public record MapFindings(
    Optional<MapCandidate> best, List<MapCandidate> ties, List<MapCandidate> others) {
  public MapFindings {
    ties = List.copyOf(ties);
    others = List.copyOf(others);
  }
}
