package org.benchstroke.report;

import java.util.Locale;
import java.util.TimeZone;
import java.util.function.Supplier;

/** Runs something as on a machine with other digits, another comma and another time of day. */
public final class Elsewhere {
  private Elsewhere() {}

  public static <T> T call(Supplier<T> action) {
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
      TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Chatham"));
      return action.get();
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
  }
}
