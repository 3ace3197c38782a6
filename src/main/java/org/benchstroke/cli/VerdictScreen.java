package org.benchstroke.cli;

import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.ResultTable;

/** A judgement as people read it at a terminal. */
final class VerdictScreen {
  private final Shown out;
  private final int columns;

  /**
   * For a terminal.
   *
   * @param columns of it
   */
  VerdictScreen(Shown out, int columns) {
    this.out = out;
    this.columns = columns;
  }

  void tell(TwinAndCauses aids) {
    JudgedRun run = aids.run();
    out.println();
    out.print(ResultTable.text(run, columns));
    if (run.imported().isEmpty()) {
      out.println();
      out.println("Likely cause (an aid, not part of the verdict)");
      aids.diagnosis().linesBeside(run.findings()).forEach(this::tellBelow);
    }
  }

  private void tellBelow(String line) {
    int indent = line.length() - line.stripLeading().length();
    out.println(Wrapped.text("  " + line, columns, indent + 4));
  }
}
