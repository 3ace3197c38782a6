package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import java.util.function.Supplier;

/** Runs something as on a machine with other digits, another comma and another time of day. */
public final class Elsewhere {
  private Elsewhere() {}

  /**
   * The same in some more places: comma as decimal mark, no Latin digits, days that begin apart.
   */
  public static <T> List<T> everywhere(Supplier<T> action) {
    List<T> found = new ArrayList<>();
    for (String place :
        List.of(
            "de-DE Europe/Berlin",
            "tr-TR America/St_Johns",
            "hi-IN-u-nu-deva Asia/Kathmandu",
            "th-TH-u-ca-buddhist-nu-thai Pacific/Kiritimati",
            "ar-EG-u-nu-arab Pacific/Chatham")) {
      int space = place.indexOf(' ');
      found.add(in(place.substring(0, space), place.substring(space + 1), action));
    }
    return found;
  }

  public static <T> T call(Supplier<T> action) {
    return in("ar-EG-u-nu-arab", "Pacific/Chatham", action);
  }

  private static <T> T in(String language, String place, Supplier<T> action) {
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag(language));
      TimeZone.setDefault(TimeZone.getTimeZone(place));
      return action.get();
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
  }
}
