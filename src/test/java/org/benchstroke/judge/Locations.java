package org.benchstroke.judge;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.analysis.Direction;

/** Locations by their words, so that tests can write them as people read them. */
public final class Locations {
  private static final Pattern AT = Pattern.compile("([\\d.]+) %( up| down)?");

  private Locations() {}

  public static Location of(String words) {
    Matcher at = AT.matcher(words);
    if (words.isEmpty()) {
      return Location.whole();
    }
    if (!at.matches()) {
      return new Location.Case(words);
    }
    double percent = Double.parseDouble(at.group(1));
    return at.group(2) == null
        ? new Location.Point(percent)
        : new Location.Side(
            percent, Direction.valueOf(at.group(2).strip().toUpperCase(Locale.ROOT)));
  }
}
