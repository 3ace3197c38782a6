package org.benchstroke.instrument.scpi;

/** What instruments say, as text. Stateless. */
final class ScpiText {
  private ScpiText() {}

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
}
