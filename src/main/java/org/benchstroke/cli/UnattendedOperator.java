package org.benchstroke.cli;

import java.io.PrintWriter;
import org.benchstroke.run.Caution;
import org.benchstroke.run.Operator;

/** Stands in for a person on a simulated bench, and only there. */
final class UnattendedOperator implements Operator {
  private final PrintWriter out;

  UnattendedOperator(PrintWriter out) {
    this.out = out;
  }

  @Override
  public String acknowledge(Caution caution) {
    Cautions.show(out, caution);
    return "unattended run on a simulated bench";
  }

  @Override
  public void countDown() {
    out.println("  Moving now (simulated).");
  }
}
