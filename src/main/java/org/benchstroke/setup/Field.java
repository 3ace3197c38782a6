package org.benchstroke.setup;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;

/**
 * Something to be typed or chosen at a step. Immutable.
 *
 * @param key which
 * @param label what is asked, in words
 * @param kind what can be typed
 * @param required whether the step can be done without it
 * @param preset what stands there at first; empty for nothing
 */
public record Field(FieldKey key, String label, Kind kind, boolean required, String preset) {
  private static final int LONGEST = 200;

  /** What can be typed. */
  public sealed interface Kind {
    /** What is allowed, in words. */
    String allowed();
  }

  /**
   * A number.
   *
   * @param unit its unit, for people
   * @param low the least that is allowed
   * @param high the most
   */
  public record Figure(String unit, double low, double high) implements Kind {
    @Override
    public String allowed() {
      return "a number, " + Numbers.plain(low) + " to " + Numbers.plain(high) + " " + unit;
    }
  }

  /**
   * One of several words.
   *
   * @param words in their order
   */
  public record Choice(List<String> words) implements Kind {
    public Choice {
      words = List.copyOf(words);
    }

    @Override
    public String allowed() {
      return String.join(" or ", words);
    }
  }

  /** Any words. */
  public record Words() implements Kind {
    @Override
    public String allowed() {
      return "some words, at most " + LONGEST + " characters";
    }
  }

  static Field number(FieldKey key, String label, String unit, double low, double high) {
    return new Field(key, label, new Figure(unit, low, high), false, "");
  }

  static Field choice(FieldKey key, String label, String... words) {
    return new Field(key, label, new Choice(List.of(words)), false, "");
  }

  static Field words(FieldKey key, String label) {
    return new Field(key, label, new Words(), false, "");
  }

  /** The same, without which the step is not done. */
  Field must() {
    return new Field(key, label, kind, true, preset);
  }

  /** The same with something in it. */
  Field with(String text) {
    return new Field(key, label, kind, required, text);
  }

  /** Why this can't stand there; empty if it can. Blank is what is not known. */
  Optional<String> mistake(String typed) {
    String text = typed.strip();
    if (text.isEmpty()) {
      return required ? Optional.of(label + ": " + kind.allowed()) : Optional.empty();
    }
    boolean fits =
        kind instanceof Figure number
            ? fits(number, text)
            : kind instanceof Choice choice
                ? choice.words().contains(text)
                : text.length() <= LONGEST;
    return fits
        ? Optional.empty()
        : Optional.of(label + ": found \"" + text + "\", allowed is " + kind.allowed());
  }

  private static boolean fits(Figure number, String text) {
    try {
      double value = numberOf(text);
      return value >= number.low() && value <= number.high();
    } catch (NumberFormatException e) {
      return false;
    }
  }

  /** A comma and a minus sign are what some people type. */
  static double numberOf(String text) {
    return Double.parseDouble(text.strip().replace(',', '.').replace('\u2212', '-'));
  }
}
