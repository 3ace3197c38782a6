package org.benchstroke.io.instrument.contract;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.MotorPower;
import org.junit.jupiter.api.Test;

/** What every {@link MotorPower} keeps to. */
public interface MotorPowerContract extends RoleContract {
  MotorPower role();

  /** Whether the relay is on in truth. */
  boolean truth();

  /** From now on the relay acknowledges and stays as it is. */
  void jam();

  @Override
  default void use(Deadline deadline) throws InstrumentException {
    role().set(true, deadline);
  }

  @Test
  default void switchesOnAndOff() throws InstrumentException {
    role().set(true, soon());
    assertThat(truth()).isTrue();
    role().set(false, soon());
    assertThat(truth()).isFalse();
  }

  @Test
  default void aRelayThatStaysAsItIsIsNoticed() throws InstrumentException {
    role().set(false, soon());
    jam();
    assertThat(failure().kind()).isEqualTo(Kind.BAD_REPLY);
  }
}
