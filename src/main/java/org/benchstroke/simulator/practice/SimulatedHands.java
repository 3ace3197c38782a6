package org.benchstroke.simulator.practice;

import org.benchstroke.procedure.Caution;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.simulator.SimulatedBench;

/**
 * The hands of an operator at a simulated bench in this process: where it has no relay they switch
 * the motor supply as the caution says that was agreed to.
 *
 * @param bench whose supply it is
 * @param operator who answers
 */
public record SimulatedHands(SimulatedBench bench, Operator operator) implements Operator {
  /** Agrees to every caution, and does nothing else. */
  public static final Operator AGREES =
      question ->
          question.warning().isPresent()
              ? new Answer.Yes("unattended run on a simulated bench")
              : Answer.no();

  @Override
  public Answer answer(Question question) {
    Answer answer = operator.answer(question);
    if (bench.switchedByHand() && answer instanceof Answer.Yes) {
      if (question.warning().filter(Caution.MOTION::equals).isPresent()) {
        bench.motorSupply(true);
      } else if (question.warning().filter(Caution.POWER_OFF::equals).isPresent()) {
        bench.motorSupply(false);
      }
    }
    return answer;
  }

  @Override
  public void countDown() {
    operator.countDown();
  }

  @Override
  public void whileWaiting(Runnable task) {
    operator.whileWaiting(task);
  }
}
