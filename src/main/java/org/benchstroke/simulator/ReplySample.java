package org.benchstroke.simulator;

import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * A text that matches a reply pattern: literal characters as they are, optional parts left out
 * unless a named group is in them, the first of several branches, and in each named group the text
 * that is given for it. It knows the usual part of the syntax; what it made is always checked
 * against the pattern. One use.
 */
final class ReplySample {
  private static final String CANDIDATES = "0A a+-.,:;=x";

  private final String pattern;
  private final Map<String, String> groups;
  private int at;

  private ReplySample(String pattern, Map<String, String> groups) {
    this.pattern = pattern;
    this.groups = groups;
  }

  /**
   * Makes a text.
   *
   * @param choices for each named group the texts that may stand there, the best first
   * @throws IllegalArgumentException if none of them fits, or the pattern is beyond it
   */
  static String of(Pattern pattern, List<Map<String, String>> choices) {
    for (Map<String, String> choice : choices) {
      String made = new ReplySample(pattern.pattern(), choice).branches().text();
      if (pattern.matcher(made).matches()) {
        return made;
      }
    }
    throw new IllegalArgumentException(
        "no reply can be made up for the pattern " + pattern.pattern());
  }

  static String of(Pattern pattern) {
    return of(pattern, List.of(Map.of()));
  }

  /** A piece of text, and whether a named group is in it. */
  private record Piece(String text, boolean named) {
    static final Piece NOTHING = new Piece("", false);

    Piece plus(Piece other) {
      return new Piece(text + other.text, named || other.named);
    }
  }

  /** The first branch up to the end or a closing parenthesis; the others are passed over. */
  private Piece branches() {
    Piece first = sequence();
    while (more() && peek() == '|') {
      at++;
      Piece other = sequence();
      first = other.named() && !first.named() ? other : first;
    }
    return first;
  }

  private Piece sequence() {
    Piece all = Piece.NOTHING;
    while (more() && peek() != '|' && peek() != ')') {
      Piece atom = atom();
      all = all.plus(quantified(atom));
    }
    return all;
  }

  private Piece atom() {
    char c = pattern.charAt(at++);
    return switch (c) {
      case '^', '$' -> Piece.NOTHING;
      case '.' -> literal("x");
      case '\\' -> literal(escape());
      case '[' -> literal(ofClass());
      case '(' -> group();
      default -> literal(String.valueOf(c));
    };
  }

  private String escape() {
    char c = pattern.charAt(at++);
    return switch (c) {
      case 'd' -> "0";
      case 's' -> " ";
      case 'w' -> "a";
      case 'S', 'D', 'W' -> "-";
      case 'b', 'B', 'A', 'z', 'Z' -> "";
      default -> String.valueOf(c);
    };
  }

  private String ofClass() {
    int start = at - 1;
    boolean escaped = false;
    // A bracket that comes first is a member of the class.
    at += pattern.startsWith("^]", at) ? 2 : pattern.startsWith("]", at) ? 1 : 0;
    while (more() && (escaped || peek() != ']')) {
      escaped = !escaped && peek() == '\\';
      at++;
    }
    at++;
    Pattern members = Pattern.compile(pattern.substring(start, at));
    return CANDIDATES
        .chars()
        .mapToObj(Character::toString)
        .filter(c -> members.matcher(c).matches())
        .findFirst()
        .orElseGet(() -> anyOf(members));
  }

  private static String anyOf(Pattern members) {
    for (char c = ' '; c <= '~'; c++) {
      if (members.matcher(String.valueOf(c)).matches()) {
        return String.valueOf(c);
      }
    }
    return "";
  }

  private Piece group() {
    String name = "";
    if (pattern.startsWith("?<", at)) {
      name = pattern.substring(at + 2, pattern.indexOf('>', at));
      at = pattern.indexOf('>', at) + 1;
    } else if (pattern.startsWith("?:", at)) {
      at += 2;
    }
    Piece inner = branches();
    at++;
    return groups.containsKey(name) ? new Piece(groups.get(name), true) : inner;
  }

  private Piece quantified(Piece atom) {
    int times = 1;
    if (more() && "?*".indexOf(peek()) >= 0) {
      at++;
      times = atom.named() ? 1 : 0;
    } else if (more() && peek() == '+') {
      at++;
    } else if (more() && peek() == '{') {
      int end = pattern.indexOf('}', at);
      times = Integer.parseInt(pattern.substring(at + 1, end).split(",", -1)[0]);
      at = end + 1;
    }
    // Lazy or possessive: the same text does.
    at += more() && "?+".indexOf(peek()) >= 0 ? 1 : 0;
    return new Piece(atom.text().repeat(times), atom.named());
  }

  private static Piece literal(String text) {
    return new Piece(text, false);
  }

  private boolean more() {
    return at < pattern.length();
  }

  private char peek() {
    return pattern.charAt(at);
  }
}
