package org.benchstroke.instrument.scpi;

import java.util.HexFormat;

/** What instruments say, as text. Stateless. */
final class ScpiText {
  private static final int MOST = 80;

  private ScpiText() {}

  /** Bytes as a person can read them: controls and the rest escaped, cut after 80. */
  static String visible(byte[] bytes, int count) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < Math.min(count, MOST); i++) {
      byte b = bytes[i];
      switch (b) {
        case '\n' -> text.append("\\n");
        case '\r' -> text.append("\\r");
        default -> text.append(b >= ' ' && b < 0x7F ? Character.toString(b) : escaped(b));
      }
    }
    return count > MOST ? text + "… (" + count + " bytes)" : text.toString();
  }

  /** Takes one pair of quotes off, and undoubles those inside (IEEE 488.2 8.7.8, from memory). */
  static String unquoted(String text) {
    String bare = text.strip();
    if (bare.length() < 2) {
      return bare;
    }
    char quote = bare.charAt(0);
    boolean quoted = (quote == '"' || quote == '\'') && bare.charAt(bare.length() - 1) == quote;
    String twice = String.valueOf(quote).repeat(2);
    return quoted
        ? bare.substring(1, bare.length() - 1).replace(twice, String.valueOf(quote)).strip()
        : bare;
  }

  private static String escaped(byte b) {
    return "\\x" + HexFormat.of().withUpperCase().toHexDigits(b);
  }
}
