package org.benchstroke.core.quantity;

import java.util.Locale;

/**
 * Text from outside as people may see it: a serial number, a name out of a file or an instrument's
 * answer can hold control characters that would ring, erase what was shown, colour a fail green or
 * turn the order of the letters. They are written out, as {@code \}{@code u001b}. Stateless.
 */
public final class Visible {
  private Visible() {}

  /**
   * The text with its control characters written out; line ends and tabs stay. What is written out
   * is also what JSON calls such a character, so that JSON stays what it was.
   */
  public static String of(String text) {
    int at = 0;
    while (at < text.length() && !isHidden(text, at)) {
      at++;
    }
    return at == text.length() ? text : writtenOut(text, at);
  }

  private static String writtenOut(String text, int from) {
    StringBuilder seen = new StringBuilder(text.length() + 16).append(text, 0, from);
    for (int at = from; at < text.length(); at++) {
      if (isHidden(text, at)) {
        seen.append(String.format(Locale.ROOT, "\\u%04x", (int) text.charAt(at)));
      } else {
        seen.append(text.charAt(at));
      }
    }
    return seen.toString();
  }

  /** Whether a character acts instead of being seen; a return before a line end is part of it. */
  private static boolean isHidden(String text, int at) {
    char character = text.charAt(at);
    if (character == '\r') {
      return at + 1 == text.length() || text.charAt(at + 1) != '\n';
    }
    return (Character.isISOControl(character) && character != '\n' && character != '\t')
        || isOrder(character);
  }

  /** What turns the order of letters, or ends a line where none ends (Unicode, UAX 9 and 14). */
  private static boolean isOrder(char character) {
    return character == '\u061c'
        || character == '\u200e'
        || character == '\u200f'
        || (character >= '\u2028' && character <= '\u202e')
        || (character >= '\u2066' && character <= '\u2069');
  }
}
