package org.benchstroke.aids.diagnosis;

/**
 * A sign that the run could show.
 *
 * @param sign the sign
 * @param seen whether it showed it, beyond the uncertainty of the figures
 * @param figures the numbers, with units; may be empty
 */
public record Evidence(Sign sign, boolean seen, String figures) {
  /** The sign in words, with its numbers. */
  public String words() {
    return sign.words() + (figures.isEmpty() ? "" : " (" + figures + ")");
  }
}
