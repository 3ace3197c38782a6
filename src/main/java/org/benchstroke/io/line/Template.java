package org.benchstroke.io.line;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A command with a value in it, {@code OUT {mA:%.3f}}: the unit in which the instrument wants the
 * value, and how it is written. A brace itself is written twice. Immutable.
 *
 * <p>The format is one of {@code %f}, {@code %e} and {@code %d} with sign, zeros, width and
 * decimals ({@code %+08.3f}); no locale plays a part in it.
 *
 * @param before the text before the value
 * @param unit the word for the unit in the template
 * @param format how the value is written
 * @param after the text behind it
 */
public record Template(String before, String unit, String format, String after) {
  private static final String EXAMPLE = "{mA:%.3f}";
  private static final Pattern PLACE =
      Pattern.compile("(?<!\\{)\\{(?!\\{)([A-Za-z]*):?([^{}]*)\\}(?!\\})|(?<!\\{)\\{(?!\\{)");
  private static final Pattern FORMAT =
      Pattern.compile("%(\\+?0?)([1-9]\\d?)?(?:(?:\\.(\\d))?([feE])|(d))");

  /** What is wrong with a template, in words. */
  public static final class Fault extends Exception {
    private static final long serialVersionUID = 1L;

    Fault(String words) {
      super(words);
    }
  }

  /**
   * Reads a template.
   *
   * @throws Fault if it has not exactly one place for a value, or the format is not allowed
   */
  public static Template parse(String text) throws Fault {
    Matcher place = PLACE.matcher(text);
    if (!place.find()) {
      throw new Fault("has no place for the value; write one such as " + EXAMPLE);
    }
    if (place.group(1) == null) {
      throw new Fault("has a brace that is not closed; a brace itself is written twice");
    }
    String unit = place.group(1);
    String format = place.group(2);
    int start = place.start();
    int end = place.end();
    if (place.find()) {
      throw new Fault("has more than one place for the value; write one");
    }
    Matcher form = FORMAT.matcher(format);
    if (!form.matches() || (form.group(1).endsWith("0") && form.group(2) == null)) {
      throw new Fault(
          "the format \"" + format + "\" is not known; write one such as %.3f, %08.3f, %.4e or %d");
    }
    return new Template(
        single(text.substring(0, start)), unit, format, single(text.substring(end)));
  }

  /** The command for a value in the template's unit. */
  public String of(double value) {
    double plain = value == 0.0 ? 0.0 : value;
    return before + number(plain) + after;
  }

  /** The value as the command holds it: rounded by the format. */
  public double rounded(double value) {
    return Double.parseDouble(number(value));
  }

  /** The step of what can be written, in the template's unit; 0 with an exponent. */
  public double step() {
    Matcher form = FORMAT.matcher(format);
    if (!form.matches() || form.group(5) != null) {
      return 1.0;
    }
    if (!form.group(4).equals("f")) {
      return 0.0;
    }
    return Math.pow(10.0, form.group(3) == null ? -6 : -Integer.parseInt(form.group(3)));
  }

  private String number(double value) {
    return format.endsWith("d")
        ? String.format(Locale.ROOT, format, Math.round(value))
        : String.format(Locale.ROOT, format, value);
  }

  private static String single(String text) {
    return text.replace("{{", "{").replace("}}", "}");
  }
}
