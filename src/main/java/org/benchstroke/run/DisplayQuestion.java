package org.benchstroke.run;

import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.benchstroke.core.quantity.Numbers;

/**
 * What a person is asked to read and type.
 *
 * @param instrument the instrument's name in the bench file
 * @param what what it shows there: "stem angle"
 * @param point at which point of the test
 * @param unit the unit of its display
 * @param resolution the step of its display, in that unit
 * @param low no reading can be below
 * @param high nor above
 */
public record DisplayQuestion(
    String instrument,
    String what,
    String point,
    String unit,
    double resolution,
    double low,
    double high)
    implements Question {
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(\\d{1,6}([.,]\\d{0,6})?|[.,]\\d{1,6})");

  /** The unit of a switch: 1 is made, 0 is not. */
  static final String MADE = "made";

  static DisplayQuestion ofSwitch(String instrument, String what, String point) {
    return new DisplayQuestion(instrument, what, point, MADE, 1.0, 0.0, 1.0);
  }

  @Override
  public String id() {
    return ofSwitch() ? "switch" : resolution == 0.0 ? "figure" : "reading";
  }

  private boolean ofSwitch() {
    return unit.equals(MADE);
  }

  /** The question in words, with the range and the step. */
  public String words() {
    if (ofSwitch()) {
      return "Look at the "
          + what
          + " on \""
          + instrument
          + "\" ("
          + point
          + ") and type 1 = made, 0 = not made";
    }
    if (resolution == 0.0) {
      return "Type the " + what + " in " + unit + " (" + point + ")";
    }
    return "Read the "
        + what
        + " on \""
        + instrument
        + "\" ("
        + point
        + ") to "
        + Numbers.plain(resolution)
        + " "
        + unit
        + " and type it";
  }

  /** The number that was typed; empty if it can't be a reading. A comma counts as a point. */
  public OptionalDouble number(String typed) {
    String text = typed.strip();
    if (!NUMBER.matcher(text).matches()) {
      return OptionalDouble.empty();
    }
    double value = Double.parseDouble(text.replace(',', '.'));
    boolean whole = !ofSwitch() || value == Math.rint(value);
    return whole && value >= low && value <= high
        ? OptionalDouble.of(value)
        : OptionalDouble.empty();
  }

  /** What can be typed, for whoever typed something else. */
  public String allowed() {
    return ofSwitch()
        ? "1 for made or 0 for not made"
        : "a number, " + Numbers.plain(low) + " to " + Numbers.plain(high) + " " + unit;
  }
}
