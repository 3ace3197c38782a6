package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Which causes are named: one, several of which one is there, or two that are there at once.
 * Stateless.
 */
final class NamedCauses {
  /** Two causes closer than this ratio are not told apart. Our choice. */
  private static final double APART = 3.0;

  /** What is named must be likelier than all else together. Our choice. */
  private static final double NAMED = 0.5;

  /** Of those that are not told apart each is there alone: both at once no more often. */
  private static final double AT_ONCE = 0.5;

  private static final int MOST_ALIKE = 4;
  private static final int MOST_AT_ONCE = 2;

  /** Probabilities that agree to this are alike; then the order is that of the causes. */
  private static final double FINE = 1e6;

  private NamedCauses() {}

  /**
   * Each list holds causes that are not told apart, the likeliest first; of each list one is there.
   */
  static List<List<Cause>> of(Posterior posterior) {
    List<Cause> left =
        posterior.causes().keySet().stream()
            .sorted(Comparator.comparingLong((Cause c) -> Math.round(-FINE * posterior.of(c))))
            .toList();
    List<List<Cause>> named = new ArrayList<>();
    for (int i = 0; i < MOST_AT_ONCE && !left.isEmpty(); i++) {
      List<Cause> alike = alike(left, posterior);
      if (any(alike, posterior) < NAMED) {
        break;
      }
      named.add(alike);
      left = left.stream().filter(c -> !alike.contains(c)).toList();
    }
    return named;
  }

  private static List<Cause> alike(List<Cause> left, Posterior posterior) {
    Cause first = left.get(0);
    double likely = posterior.of(first);
    return left.stream()
        .filter(
            c ->
                c == first
                    || (posterior.of(c) * APART >= likely
                        && posterior.of(first, c) < AT_ONCE * posterior.of(c)))
        .limit(MOST_ALIKE)
        .toList();
  }

  /** How likely one of them is there. */
  static double any(List<Cause> alike, Posterior posterior) {
    double sum = alike.stream().mapToDouble(posterior::of).sum();
    for (Cause a : alike) {
      sum -=
          alike.stream().filter(b -> a.compareTo(b) < 0).mapToDouble(b -> posterior.of(a, b)).sum();
    }
    return sum;
  }
}
