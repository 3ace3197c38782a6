package org.benchstroke.papers.sheets;

import java.time.Instant;
import java.util.Optional;

/**
 * Which issue of a paper this is. The second issue under one number gets a number of its own, and
 * each names the one that it supersedes. Immutable.
 *
 * @param count of the papers of this number, from 1
 * @param superseded the issue before; empty for the first
 */
public record Edition(int count, Optional<Superseded> superseded) {
  /** The first of its number, after no other. */
  public static final Edition FIRST = new Edition(1, Optional.empty());

  /** Requires a count of 1 or more. */
  public Edition {
    if (count < 1) {
      throw new IllegalArgumentException("issues are counted from 1: " + count);
    }
  }

  /**
   * An issue that no longer holds.
   *
   * @param number of that paper
   * @param issued when it was issued
   * @param reason why another was issued, in the words of who issued that
   */
  public record Superseded(String number, Instant issued, String reason) {}

  /** What stands behind a paper's number: nothing for the first. */
  public String suffix() {
    return count == 1 ? "" : "-I" + count;
  }
}
