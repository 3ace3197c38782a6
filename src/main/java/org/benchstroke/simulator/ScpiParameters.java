package org.benchstroke.simulator;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Parameters of program messages: numbers in the flexible form NRf (IEEE 488.2 7.7.2), on/off. */
final class ScpiParameters {
  private static final Pattern NUMBER =
      Pattern.compile(
          "([+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE]([+-]?[0-9]+))?)\\s*([A-Za-z/]*)");
  private static final Pattern WORD = Pattern.compile("[A-Za-z][A-Za-z0-9_]*");
  private static final int LARGEST_EXPONENT_DIGITS = 5;
  private static final double LARGEST_MASK = 255.0;

  /** Milliamperes in one of each; in SCPI, M before A is milli. */
  private static final Map<String, Double> CURRENTS =
      Map.of("", 1e3, "A", 1e3, "MA", 1.0, "UA", 1e-3, "NA", 1e-6);

  private ScpiParameters() {}

  static void none(List<String> parameters) throws ScpiError {
    if (!parameters.isEmpty()) {
      throw new ScpiError(ScpiError.Code.PARAMETER_NOT_ALLOWED);
    }
  }

  static String one(List<String> parameters) throws ScpiError {
    if (parameters.isEmpty() || parameters.get(0).isEmpty()) {
      throw new ScpiError(ScpiError.Code.MISSING_PARAMETER);
    }
    if (parameters.size() > 1) {
      throw new ScpiError(ScpiError.Code.PARAMETER_NOT_ALLOWED);
    }
    return parameters.get(0);
  }

  /** A current in mA; the number alone is in A. */
  static double milliamps(String text) throws ScpiError {
    Matcher number = number(text);
    Double factor = CURRENTS.get(number.group(3).toUpperCase(Locale.ROOT));
    if (factor == null) {
      throw new ScpiError(ScpiError.Code.INVALID_SUFFIX);
    }
    return value(number) * factor;
  }

  /** ON, OFF or a number, of which any but 0 is ON once rounded (SCPI-1999 volume 1, 7.3). */
  static boolean onOff(String text) throws ScpiError {
    if (WORD.matcher(text).matches()) {
      return switch (text.toUpperCase(Locale.ROOT)) {
        case "ON" -> true;
        case "OFF" -> false;
        default -> throw new ScpiError(ScpiError.Code.INVALID_WORD);
      };
    }
    return Math.rint(bare(text)) != 0.0;
  }

  /** A mask of eight bits. */
  static int mask(String text) throws ScpiError {
    if (WORD.matcher(text).matches()) {
      throw new ScpiError(ScpiError.Code.WORD_NOT_ALLOWED);
    }
    double mask = Math.rint(bare(text));
    if (!(mask >= 0.0 && mask <= LARGEST_MASK)) {
      throw new ScpiError(ScpiError.Code.OUT_OF_RANGE);
    }
    return (int) mask;
  }

  private static double bare(String text) throws ScpiError {
    Matcher number = number(text);
    if (!number.group(3).isEmpty()) {
      throw new ScpiError(ScpiError.Code.SUFFIX_NOT_ALLOWED);
    }
    return value(number);
  }

  private static Matcher number(String text) throws ScpiError {
    if (text.startsWith("\"") || text.startsWith("'")) {
      throw new ScpiError(ScpiError.Code.STRING_NOT_ALLOWED);
    }
    if (WORD.matcher(text).matches()) {
      throw new ScpiError(ScpiError.Code.WORD_NOT_ALLOWED);
    }
    Matcher number = NUMBER.matcher(text);
    if (!number.matches()) {
      throw new ScpiError(ScpiError.Code.INVALID_NUMBER);
    }
    return number;
  }

  private static double value(Matcher number) throws ScpiError {
    String exponent = number.group(2);
    if (exponent != null && exponent.length() > LARGEST_EXPONENT_DIGITS) {
      throw new ScpiError(ScpiError.Code.EXPONENT_TOO_LARGE);
    }
    return Double.parseDouble(number.group(1));
  }
}
