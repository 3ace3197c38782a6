package org.benchstroke.cli;

import org.benchstroke.procedure.Caution;

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
    out.println();
    out.control(Shown.Control.BELL);
    out.println(Wrapped.text(PREFIX + caution.text(), Math.min(WIDEST, columns), PREFIX.length()));
  }
}
