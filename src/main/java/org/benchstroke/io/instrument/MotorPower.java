package org.benchstroke.io.instrument;

import org.benchstroke.core.clock.Deadline;

/**
 * Role: switches the motor supply of the unit through a relay. A convenience of the bench, never
 * its emergency stop. The runner's thread owns it.
 */
public interface MotorPower {
  /**
   * Switches and reads back.
   *
   * @throws InstrumentException if it can't be said that the relay obeyed
   */
  void set(boolean on, Deadline deadline) throws InstrumentException;
}
