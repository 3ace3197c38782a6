package org.benchstroke.app.history;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.benchstroke.core.statistics.NoAnswer;

/** Why a statistic has no figures, in words and for programs. Stateless. */
public final class Lacking {
  private Lacking() {}

  /**
   * In a sentence.
   *
   * @param what is counted: "values"
   */
  public static String words(String what, NoAnswer why) {
    return switch (why.lack()) {
      case TOO_FEW ->
          "No answer: there are "
              + why.has()
              + " "
              + what
              + ", at least "
              + why.needs()
              + " are needed.";
      case ALL_IDENTICAL ->
          "No answer: all "
              + why.has()
              + " "
              + what
              + " are the same; the reading is too coarse"
              + " for this question, or stands still.";
    };
  }

  /** For programs. */
  public static Map<String, Object> fields(NoAnswer why) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("lack", why.lack().name().toLowerCase(Locale.ROOT));
    fields.put("has", why.has());
    fields.put("needs", why.needs());
    return fields;
  }
}
