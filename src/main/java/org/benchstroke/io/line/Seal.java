package org.benchstroke.io.line;

import java.util.Locale;
import java.util.Optional;

/**
 * Where the check digits of a message stand: behind its text and a mark, before what ends it. They
 * are made of the text without its first few characters and without the mark. Immutable.
 *
 * @param checksum the kind
 * @param mark what stands between the text and the digits, maybe nothing
 * @param skip how many characters at the beginning don't count
 */
public record Seal(Checksum checksum, String mark, int skip) {
  /** No check digits. */
  public static final Seal NONE = new Seal(Checksum.NONE, "", 0);

  /** The text with its check digits. */
  public String seal(String text) {
    return checksum == Checksum.NONE ? text : text + mark + digits(text);
  }

  /** The text of a line whose check digits are right; empty if they are wrong or missing. */
  public Optional<String> open(String line) {
    if (checksum == Checksum.NONE) {
      return Optional.of(line);
    }
    int end = line.length() - checksum.digits() - mark.length();
    if (end < 0) {
      return Optional.empty();
    }
    String text = line.substring(0, end);
    String rest = line.substring(end + mark.length()).toUpperCase(Locale.ROOT);
    boolean right = line.startsWith(mark, end) && rest.equals(digits(text));
    return right ? Optional.of(text) : Optional.empty();
  }

  private String digits(String text) {
    return checksum.of(text.substring(Math.min(skip, text.length())));
  }
}
