package org.benchstroke.papers;

import java.util.List;
import org.benchstroke.judge.Word;

/**
 * A whole report in words, as the template sets it. Immutable.
 *
 * @param number the report's number: letters, digits and dashes only
 * @param unit the unit's serial number, as people read it
 * @param word the word that is shown for the unit
 * @param headline what is set largest: the word, or that the readings of others prove little
 * @param reason why
 * @param notices what must be seen beside the word: not whole, stem not proven …
 * @param simulated whether it is about a simulated unit
 * @param sections the rest, in order
 * @param closing the last section, kept together with the end mark
 * @param style the style sheet
 */
public record ReportPage(
    String number,
    String unit,
    Word word,
    String headline,
    String reason,
    List<String> notices,
    boolean simulated,
    List<Section> sections,
    Section closing,
    String style) {
  /** What is printed across every page of a simulated run. */
  public static final String WATERMARK = "SIMULATED – not a real unit";

  public ReportPage {
    notices = List.copyOf(notices);
    sections = List.copyOf(sections);
    if (!number.matches("[A-Za-z0-9-]+")) {
      throw new IllegalArgumentException("a report's number is letters, digits and dashes");
    }
  }

  /** The name under which the template and the style sheet know a word. */
  public static String key(Word word) {
    return switch (word) {
      case PASS -> "pass";
      case CONDITIONAL_PASS -> "conditional-pass";
      case CONDITIONAL_FAIL -> "conditional-fail";
      case FAIL -> "fail";
      case NO_RESULT -> "no-result";
    };
  }
}
