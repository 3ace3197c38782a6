package org.benchstroke.cli;

import org.benchstroke.run.Echo;

/** How it looks at the terminal what is about to be tested. Stateless. */
final class EchoBlock {
  private static final String LEFT = "  ";
  private static final int NAMES = 20;

  private EchoBlock() {}

  /**
   * Shows it.
   *
   * @param columns of the terminal
   */
  static void show(Shown out, Echo echo, int columns) {
    out.println();
    out.println("About to be tested");
    for (Echo.Line line : echo.lines()) {
      String name = line.name() + " ".repeat(Math.max(1, NAMES - line.name().length()));
      out.println(Wrapped.text(LEFT + name + line.value(), columns, LEFT.length() + NAMES));
    }
  }
}
