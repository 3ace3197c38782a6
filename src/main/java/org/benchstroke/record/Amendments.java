package org.benchstroke.record;

import java.util.List;

/**
 * What was amended beside a record. Immutable.
 *
 * @param all those that hold, in order
 * @param flaws what is wrong with the files of others, a sentence each; none of them counts
 */
public record Amendments(List<Amendment> all, List<String> flaws) {
  /** None. */
  public static final Amendments NONE = new Amendments(List.of(), List.of());

  public Amendments {
    all = List.copyOf(all);
    flaws = List.copyOf(flaws);
  }

  /** What a label says now. */
  String now(Label label, String written) {
    return all.stream()
        .filter(amendment -> amendment.label() == label)
        .map(Amendment::is)
        .reduce(written, (before, after) -> after);
  }
}
