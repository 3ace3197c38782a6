package org.benchstroke.papers.sheets;

import java.util.Optional;

/**
 * A label in words, as the template sets it. Immutable.
 *
 * @param frame what all papers have
 * @param size the label
 * @param serial of the unit
 * @param word the verdict with its shape
 * @param date the day of the test, in local time
 * @param kind that it belongs to a certificate or to a test report
 * @param warning what must be seen before the verdict
 */
public record LabelPage(
    Frame frame,
    LabelSize size,
    String serial,
    String word,
    String date,
    String kind,
    Optional<String> warning) {
  /** Its height in the style sheet's unit of type: all of it grows with the label. */
  public String em() {
    return size == LabelSize.SMALL ? "small-label" : "large-label";
  }
}
