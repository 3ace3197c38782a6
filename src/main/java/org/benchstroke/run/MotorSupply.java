package org.benchstroke.run;

import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.record.Event;

/** The unit's motor supply, where the bench has a relay for it. The runner's thread only. */
final class MotorSupply {
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private boolean cut;
  private boolean wasOn;

  MotorSupply(Bench bench, BenchClock clock, RunLog log) {
    this.bench = bench;
    this.clock = clock;
    this.log = log;
  }

  /** Whether the bench can switch it. */
  boolean hasRelay() {
    return bench.motorPower().isPresent();
  }

  /** Whether it is off, or may be: a relay that did not confirm may have opened all the same. */
  boolean cut() {
    return cut;
  }

  /** Whether the bench had it on and may have left it off. */
  boolean leftOff() {
    return cut && wasOn;
  }

  /**
   * Switches it, and writes that it did.
   *
   * @throws InstrumentException if it can't be said that the relay obeyed; that is written, too
   */
  void set(boolean on) throws InstrumentException {
    MotorPower relay = bench.motorPower().orElseThrow();
    cut |= !on;
    try {
      relay.set(on, Deadline.inWall(clock, bench.replyNanos()));
    } catch (InstrumentException e) {
      log.write(Failed.exchange(e));
      throw e;
    }
    cut = !on;
    wasOn |= on;
    log.write(new Event.Powered(on, "relay"));
  }
}
