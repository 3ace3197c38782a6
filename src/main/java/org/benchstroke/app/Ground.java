package org.benchstroke.app;

import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.run.Operator;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.practice.SimulatedHands;

/**
 * Where a run is carried out: how its instruments are reached, and by what clock. Closed after it.
 *
 * @param links to the instruments, which nobody else uses meanwhile
 * @param clock of the bench
 * @param inProcess the simulated bench, where it is in this process and the clock is virtual
 */
public record Ground(BenchLinks links, BenchClock clock, Optional<SimulatedBench> inProcess)
    implements AutoCloseable {

  /** The operator, with hands on a simulated bench in this process. */
  Operator hands(Operator operator) {
    return inProcess.<Operator>map(bench -> new SimulatedHands(bench, operator)).orElse(operator);
  }

  @Override
  public void close() {
    links.close();
  }
}
