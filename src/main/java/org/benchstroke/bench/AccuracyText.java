package org.benchstroke.bench;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.quantity.Accuracy;

/**
 * Reads an accuracy as a data sheet prints it: {@code ±(0.02 % of reading + 2 µA)}. Terms are
 * joined by +: a share of reading, a share of range (or span, full scale), and a constant in the
 * channel's unit. Stateless.
 */
final class AccuracyText {
  /** What a person may write, for messages. */
  static final String ALLOWED = "an accuracy like \"±(0.02 % of reading + 2 µA)\"";

  /** What a person may write of the change with temperature. */
  static final String ALLOWED_PER_KELVIN = "a change like \"±(0.005 % of reading + 0.1 µA) / K\"";

  private static final Pattern PER_KELVIN = Pattern.compile("(.*)(?:/|per)\\s*(?:k|°c)");

  private static final Pattern SHARE =
      Pattern.compile("([0-9.]+)\\s*%\\s*(?:of\\s+)?(reading|rdg|range|span|full scale|fs)");
  private static final Pattern CONSTANT =
      Pattern.compile("([0-9.]+)\\s*(µa|μa|ua|ma|a|mv|v|%|°|deg)");

  /** How many of a channel's unit one of these is. */
  private static final Map<String, Map<String, Double>> UNITS =
      Map.of(
          "mA", Map.of("µa", 1e-3, "μa", 1e-3, "ua", 1e-3, "ma", 1.0, "a", 1e3),
          "V", Map.of("mv", 1e-3, "v", 1.0),
          "%", Map.of("%", 1.0),
          "deg", Map.of("°", 1.0, "deg", 1.0));

  private AccuracyText() {}

  /**
   * Parses a change with temperature: an accuracy, and behind it "/ K", "per K" or the same with
   * °C.
   *
   * @return what one kelvin adds, or empty as {@link #parse} is
   */
  static Optional<Accuracy> parsePerKelvin(String text, String unit, double range) {
    Matcher perKelvin = PER_KELVIN.matcher(text.toLowerCase(Locale.ROOT).strip());
    return perKelvin.matches() ? parse(perKelvin.group(1), unit, range) : Optional.empty();
  }

  /**
   * Parses the text.
   *
   * @param text as printed
   * @param unit the channel's unit: "mA", "V", "%" or "deg"
   * @param range the width of the channel's range in that unit; NaN if it is not stated
   * @return the accuracy, or empty if the text can't be understood for this unit
   */
  static Optional<Accuracy> parse(String text, String unit, double range) {
    String bare = text.toLowerCase(Locale.ROOT).replaceAll("[±()]|\\+-|\\+/-", " ").strip();
    double reading = 0;
    double ofRange = 0;
    double constant = 0;
    for (String term : bare.split("\\+", -1)) {
      Matcher share = SHARE.matcher(term.strip());
      Matcher fixed = CONSTANT.matcher(term.strip());
      try {
        if (share.matches()) {
          double percent = Double.parseDouble(share.group(1));
          if (share.group(2).equals("reading") || share.group(2).equals("rdg")) {
            reading += percent;
          } else {
            ofRange += percent;
          }
        } else if (fixed.matches() && UNITS.get(unit).containsKey(fixed.group(2))) {
          constant += Double.parseDouble(fixed.group(1)) * UNITS.get(unit).get(fixed.group(2));
        } else {
          return Optional.empty();
        }
      } catch (NumberFormatException e) {
        return Optional.empty();
      }
    }
    boolean rangeNeeded = ofRange > 0;
    if (rangeNeeded && !(range > 0)) {
      return Optional.empty();
    }
    return Optional.of(new Accuracy(reading, ofRange, rangeNeeded ? range : 0, constant));
  }
}
