package org.benchstroke.cli;

import java.util.function.IntSupplier;
import org.benchstroke.procedure.Caution;
import org.benchstroke.run.Operator;

/** Stands in for a person on a simulated bench, and only there. */
final class UnattendedOperator implements Operator {
  private final Shown out;
  private final IntSupplier columns;

  UnattendedOperator(Shown out, IntSupplier columns) {
    this.out = out;
    this.columns = columns;
  }

  @Override
  public String acknowledge(Caution caution) {
    Cautions.show(out, caution, columns.getAsInt());
    return "unattended run on a simulated bench";
  }

  @Override
  public void countDown() {
    out.println("  Moving now (simulated).");
  }
}
