package org.benchstroke.cli;

import java.util.function.IntSupplier;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.simulator.practice.SimulatedHands;

/** Stands in for a person on a simulated bench, and only there: shows what it agrees to. */
final class UnattendedOperator implements Operator {
  private final Shown out;
  private final IntSupplier columns;

  UnattendedOperator(Shown out, IntSupplier columns) {
    this.out = out;
    this.columns = columns;
  }

  @Override
  public Answer answer(Question question) {
    question.shownWith().ifPresent(echo -> EchoBlock.show(out, echo, columns.getAsInt()));
    question.warning().ifPresent(caution -> Cautions.show(out, caution, columns.getAsInt()));
    return SimulatedHands.AGREES.answer(question);
  }

  @Override
  public void countDown() {
    out.println("  Moving now (simulated).");
  }
}
