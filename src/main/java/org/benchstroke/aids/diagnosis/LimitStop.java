package org.benchstroke.aids.diagnosis;

import java.util.DoubleSummaryStatistics;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Stands at a limit: sent to several places, the unit stood at one, and never beyond it. A stop, a
 * cam or a loop that carries no more makes one; what its error is elsewhere they do not tell.
 * Stateless.
 */
final class LimitStop {
  /** Stands at one place differ by less, %. */
  private static final double ONE_PLACE = 0.6;

  /** Setpoints further apart than this are more than a dead band, %. Our choice. */
  private static final double SEVERAL = 5.0;

  /** Nearer to its setpoint than this, a stand may have got there by itself, %. Our choice. */
  private static final double CAME = 1.0;

  private LimitStop() {}

  /** Those stands that no limit held. */
  static List<Stand> without(List<Stand> stands) {
    Set<Stand> held = new HashSet<>(held(stands, 1.0));
    held.addAll(held(stands, -1.0));
    return stands.stream().filter(s -> !held.contains(s)).toList();
  }

  /** At the open end with +1, at the closed end with −1. */
  private static List<Stand> held(List<Stand> stands, double outwards) {
    double farthest =
        stands.stream().mapToDouble(s -> outwards * s.feedbackPercent()).max().orElse(0.0);
    List<Stand> there =
        stands.stream()
            .filter(s -> outwards * s.feedbackPercent() > farthest - ONE_PLACE)
            .filter(s -> outwards * s.errorPercent() < -CAME)
            .toList();
    DoubleSummaryStatistics sent =
        there.stream().mapToDouble(Stand::setpointPercent).summaryStatistics();
    return sent.getMax() - sent.getMin() > SEVERAL ? there : List.of();
  }
}
