package org.benchstroke.cli;

/** Breaks a line that is wider than the terminal at blanks, the rest indented. Stateless. */
final class Wrapped {
  /** With less room than this beside the indent, a line is better broken by the terminal. */
  private static final int LEAST_ROOM = 20;

  private Wrapped() {}

  /**
   * The line, broken with line feeds if it must be.
   *
   * @param columns of the terminal
   * @param indent of what follows, columns
   */
  static String text(String line, int columns, int indent) {
    if (line.length() <= columns || columns - indent < LEAST_ROOM) {
      return line;
    }
    StringBuilder out = new StringBuilder();
    String rest = line;
    while (rest.length() > columns) {
      int blank = blank(rest, columns);
      if (blank < indent + 1) {
        // A word that is wider than the room stays whole.
        blank = rest.indexOf(' ', columns);
        if (blank < 0) {
          break;
        }
      }
      out.append(rest.substring(0, blank).stripTrailing()).append('\n');
      rest = " ".repeat(indent) + rest.substring(blank + 1).stripLeading();
    }
    return out.append(rest).toString();
  }

  /** The last blank so far, but none before a per cent sign. */
  private static int blank(String text, int to) {
    int blank = text.lastIndexOf(' ', to);
    while (blank > 0 && text.startsWith("%", blank + 1)) {
      blank = text.lastIndexOf(' ', blank - 1);
    }
    return blank;
  }
}
