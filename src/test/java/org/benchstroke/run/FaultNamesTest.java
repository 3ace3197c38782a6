package org.benchstroke.run;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.record.FaultNames;
import org.junit.jupiter.api.Test;

/** Two packages that don't know each other name a fault that both find. */
class FaultNamesTest {
  @Test
  void aFrozenValueHasOneName() {
    assertThat(InstrumentException.Kind.FROZEN.words()).isEqualTo(FaultNames.FROZEN_VALUE);
  }
}
