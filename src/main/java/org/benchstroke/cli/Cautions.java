package org.benchstroke.cli;

import java.io.PrintWriter;
import org.benchstroke.run.Caution;

/** How a caution looks at the terminal. Stateless. */
final class Cautions {
  private static final int WIDTH = 84;

  private Cautions() {}

  static void show(PrintWriter out, Caution caution) {
    out.println();
    String prefix = "  /!\\ CAUTION  ";
    StringBuilder line = new StringBuilder(prefix);
    for (String word : caution.text().split(" ", -1)) {
      if (line.length() + 1 + word.length() > WIDTH) {
        out.println(line.toString().stripTrailing());
        line = new StringBuilder(" ".repeat(prefix.length()));
      }
      line.append(word).append(' ');
    }
    out.println(line.toString().stripTrailing());
  }
}
