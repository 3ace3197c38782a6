package org.benchstroke.io.scpi;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One entry of the instrument's error queue, as {@code SYSTem:ERRor?} answers it.
 *
 * <p>Source: SCPI-1999 Volume 2, SYSTem:ERRor.
 *
 * @param code 0 if there is none; negative if SCPI defines it, positive if the maker does
 * @param text the instrument's own words
 */
record ScpiError(int code, String text) {
  private static final Pattern FORM = Pattern.compile("([+-]?\\d{1,5})\\s*,\\s*(\".*\"|'.*')");

  /** Empty if the reply has not the form of an entry. */
  static Optional<ScpiError> parse(String reply) {
    Matcher form = FORM.matcher(reply.strip());
    return form.matches()
        ? Optional.of(
            new ScpiError(Integer.parseInt(form.group(1)), ScpiText.unquoted(form.group(2))))
        : Optional.empty();
  }

  boolean none() {
    return code == 0;
  }

  /** The kind of error, by the ranges of SCPI-1999 Volume 2, 21.8. */
  String kind() {
    if (code > 0) {
      return "the maker's own error";
    }
    return switch (-code / 100) {
      case 1 -> "command error";
      case 2 -> "execution error";
      case 3 -> "device-specific error";
      case 4 -> "query error";
      case 5 -> "power on";
      case 6 -> "user request";
      case 7 -> "request control";
      case 8 -> "operation complete";
      default -> "error";
    };
  }

  String words() {
    return kind() + " " + code + ",\"" + text + "\"";
  }
}
