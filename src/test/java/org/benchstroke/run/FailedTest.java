package org.benchstroke.run;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.record.Event;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Two packages that don't know each other name what an exchange fails by. */
class FailedTest {
  @ParameterizedTest
  @EnumSource
  void aFailureHasOneNameOnTheScreenAndInTheRecord(InstrumentException.Kind kind) {
    Event.Faulted told =
        Failed.exchange(new InstrumentException(kind, "input module", "COM1", "04", "nothing"));
    assertThat(told.fault()).hasToString(kind.words());
    assertThat(told.instrument()).isEqualTo("input module");
  }
}
