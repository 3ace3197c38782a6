package org.benchstroke.io.scpi;

import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number as an instrument answers it: NR1, NR2 or NR3 (IEEE 488.2 8.7.2 to 8.7.4, from memory),
 * maybe with its unit.
 *
 * <p>SCPI-1999 keeps ±9.9E37 for an overrange and 9.91E37 for "not a number" (Volume 1, 7.2.1,
 * numbers seen in open libraries). Stateless.
 */
final class ScpiNumber {
  private static final Pattern FORM =
      Pattern.compile("([+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][+-]?\\d{1,3})?)\\s*([A-Za-z]*)");
  private static final Map<String, Double> PREFIXES =
      Map.of("", 1.0, "M", 1e-3, "U", 1e-6, "N", 1e-9, "K", 1e3);
  private static final double INFINITE = 9.9e37;
  private static final double NOT_A_NUMBER = 9.91e37;

  private ScpiNumber() {}

  /** What came of reading a number. */
  sealed interface Result permits Value, Fault {}

  /**
   * A finite number.
   *
   * @param value in the unit that was asked for
   */
  record Value(double value) implements Result {}

  /**
   * No number.
   *
   * @param why what is wrong with it
   */
  record Fault(String why) implements Result {}

  /**
   * Reads a number.
   *
   * @param unit the unit that it is in when it names none, as SCPI spells it: "A"
   */
  static Result parse(String text, String unit) {
    Matcher form = FORM.matcher(text.strip());
    if (!form.matches()) {
      return new Fault(
          text.contains(",") || text.contains(";")
              ? "more than one value came"
              : "this is not a number");
    }
    double number = Double.parseDouble(form.group(1));
    if (number == NOT_A_NUMBER) {
      return new Fault("the instrument answers \"not a number\"");
    }
    if (Math.abs(number) >= INFINITE) {
      return new Fault("the instrument answers \"overrange\"");
    }
    String suffix = form.group(2).toUpperCase(Locale.ROOT);
    if (suffix.isEmpty()) {
      return new Value(number);
    }
    String prefix =
        suffix.endsWith(unit) ? suffix.substring(0, suffix.length() - unit.length()) : "no";
    return PREFIXES.containsKey(prefix)
        ? new Value(number * PREFIXES.get(prefix))
        : new Fault("the unit is " + form.group(2) + ", not " + unit);
  }
}
