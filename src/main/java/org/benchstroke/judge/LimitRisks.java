package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;

/**
 * What the limits of a run risk, each by itself and all together: no part of the verdict. It takes
 * longer to work out than all else that is judged, so whoever shows it twice keeps it. Immutable.
 *
 * @param each one for each limit that a value was compared with
 * @param together of all values that were compared with one; empty if none was
 */
public record LimitRisks(List<LimitRisk> each, Optional<JointRisk> together) {
  public LimitRisks {
    each = List.copyOf(each);
  }

  /** Of these judgements. */
  public static LimitRisks of(List<Judgement> judgements) {
    List<LimitRisk> each = LimitRisk.of(judgements);
    return new LimitRisks(each, JointRisk.of(judgements, each));
  }
}
