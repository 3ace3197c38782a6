package org.benchstroke.io.scpi;

import java.util.ArrayList;
import java.util.List;

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

  /**
   * The answers in a reply to a compound message: semicolons part them, but not those in quotes; a
   * doubled quote is one inside its string (IEEE 488.2 8.4.1 and 8.7.8, from memory). None at all
   * if a quote is left open.
   */
  static List<String> answers(String reply) {
    List<String> answers = new ArrayList<>();
    char open = 0;
    int start = 0;
    for (int i = 0; i < reply.length(); i++) {
      char c = reply.charAt(i);
      if (open != 0) {
        open = c == open ? 0 : open;
      } else if (c == '"' || c == '\'') {
        open = c;
      } else if (c == ';') {
        answers.add(reply.substring(start, i).strip());
        start = i + 1;
      }
    }
    answers.add(reply.substring(start).strip());
    return open == 0 ? List.copyOf(answers) : List.of();
  }
}
