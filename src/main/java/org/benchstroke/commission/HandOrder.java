package org.benchstroke.commission;

import java.util.Locale;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;

/** What a person orders when a current is set by hand. Immutable. */
public sealed interface HandOrder {
  /** What may be typed. */
  String ALLOWED =
      "type a current in mA (12.5), a position (50%), + or - for a step, step 0.1 or step 1% for"
          + " its size, safe, or q";

  /** Sets a current. */
  record Set(Current current) implements HandOrder {}

  /** A step up (+1) or down (−1) of the current. */
  record Step(int sign) implements HandOrder {}

  /** Changes the size of a step. */
  record StepSize(double milliamps) implements HandOrder {}

  /** The unit's safe signal. */
  record Safe() implements HandOrder {}

  /** The end. */
  record Quit() implements HandOrder {}

  /** An empty line. */
  record Nothing() implements HandOrder {}

  /** Not understood. */
  record Unclear(String why) implements HandOrder {}

  /**
   * Reads a typed line.
   *
   * @param signal turns % of travel into mA
   */
  static HandOrder of(String line, SignalRange signal) {
    String text = line.strip().toLowerCase(Locale.ROOT);
    return switch (text) {
      case "" -> new Nothing();
      case "+" -> new Step(1);
      case "-" -> new Step(-1);
      case "safe" -> new Safe();
      case "q", "quit" -> new Quit();
      default -> text.startsWith("step") ? stepSize(text, signal) : amount(text, signal);
    };
  }

  /**
   * The size of a step in mA: "0.1" (mA) or "1%" (of travel).
   *
   * @return empty if the text is no size above 0
   */
  static OptionalDouble stepMilliamps(String text, SignalRange signal) {
    String bare = text.strip();
    boolean percent = bare.endsWith("%");
    OptionalDouble number = number(percent ? bare.substring(0, bare.length() - 1) : unitless(bare));
    if (number.isEmpty() || number.getAsDouble() <= 0.0) {
      return OptionalDouble.empty();
    }
    double size = number.getAsDouble();
    return OptionalDouble.of(percent ? size / signal.percentPerMilliamp() : size);
  }

  private static HandOrder stepSize(String text, SignalRange signal) {
    OptionalDouble size = stepMilliamps(text.substring("step".length()), signal);
    return size.isPresent()
        ? new StepSize(size.getAsDouble())
        : new Unclear("a step's size is written step 0.1 (mA) or step 1% (of travel)");
  }

  private static HandOrder amount(String text, SignalRange signal) {
    if (text.startsWith("+") || text.startsWith("-")) {
      return new Unclear("write + or - alone; step sets the size of a step");
    }
    boolean percent = text.endsWith("%");
    OptionalDouble number = number(percent ? text.substring(0, text.length() - 1) : unitless(text));
    if (number.isEmpty()) {
      return new Unclear("not understood: \"" + line(text) + "\"; " + ALLOWED);
    }
    return new Set(
        percent
            ? signal.currentAt(Position.ofPercent(number.getAsDouble()))
            : Current.ofMilliamps(number.getAsDouble()));
  }

  private static String unitless(String text) {
    return text.replaceFirst("(?i)\\s*ma$", "");
  }

  private static String line(String text) {
    return text.length() > 40 ? text.substring(0, 40) + "…" : text;
  }

  /** A plain decimal number; a comma is no decimal point here, so that 1,5 is not taken for 15. */
  private static OptionalDouble number(String text) {
    String bare = text.strip();
    return bare.matches("[0-9]{1,6}(\\.[0-9]{0,9})?|\\.[0-9]{1,9}")
        ? OptionalDouble.of(Double.parseDouble(bare))
        : OptionalDouble.empty();
  }

  /** The size of a step for people. */
  static String stepText(double milliamps, SignalRange signal) {
    return Numbers.fixed(milliamps, 3)
        + " mA = "
        + Numbers.fixed(milliamps * signal.percentPerMilliamp(), 2)
        + " %";
  }
}
