package org.benchstroke.io.instrument.contract;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Set;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.SwitchReader;
import org.junit.jupiter.api.Test;

/** What every {@link SwitchReader} keeps to. */
public interface SwitchReaderContract extends RoleContract {
  SwitchReader role();

  /** The switches that are wired. */
  Set<LimitSwitch> wired();

  /** Makes exactly these switches made. */
  void truth(Set<LimitSwitch> made);

  @Override
  default void use(Deadline deadline) throws InstrumentException {
    role().read(deadline);
  }

  @Test
  default void readsEachWiredSwitchAndNoOther() throws InstrumentException {
    for (LimitSwitch made : wired()) {
      truth(Set.of(made));
      long before = clock().nanos();
      Reading<Map<LimitSwitch, Boolean>> reading = role().read(soon());
      assertThat(reading.value().keySet()).isEqualTo(wired());
      reading.value().forEach((key, value) -> assertThat(value).isEqualTo(key == made));
      ReadingChecks.isStampedSince(reading, before, clock());
    }
  }
}
