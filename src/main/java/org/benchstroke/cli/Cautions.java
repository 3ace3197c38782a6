package org.benchstroke.cli;

import org.benchstroke.run.Caution;

/** How a caution looks at the terminal, and that it rings. Stateless. */
final class Cautions {
  private static final int WIDEST = 84;
  private static final String PREFIX = "  /!\\ CAUTION  ";

  private Cautions() {}

  /**
   * Shows it.
   *
   * @param columns of the terminal
   */
  static void show(Shown out, Caution caution, int columns) {
    int width = Math.min(WIDEST, columns - 1);
    out.println();
    out.control(Shown.Control.BELL);
    StringBuilder line = new StringBuilder(PREFIX);
    for (String word : caution.text().split(" ", -1)) {
      boolean full = line.length() + word.length() > width;
      if (full && line.length() > PREFIX.length()) {
        out.println(line.toString().stripTrailing());
        line = new StringBuilder(" ".repeat(PREFIX.length()));
      }
      line.append(word).append(' ');
    }
    out.println(line.toString().stripTrailing());
  }
}
