package org.benchstroke.io.instrument.contract;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.Reading;
import org.junit.jupiter.api.Test;

/** What every {@link PositionTransmitter} keeps to. */
public interface PositionTransmitterContract extends RoleContract {
  PositionTransmitter role();

  /** Makes the instrument see this, in % of travel. */
  void truth(double value);

  /** The ends of its channel, in % of travel. */
  double[] ends();

  @Override
  default void use(Deadline deadline) throws InstrumentException {
    role().read(deadline);
  }

  @Test
  default void readsWhatThereIs() throws InstrumentException {
    double middle = (ends()[0] + ends()[1]) / 2.0;
    truth(middle);
    long before = clock().nanos();
    Reading<Position> reading = role().read(soon());
    assertThat(reading.value().percent()).isCloseTo(middle, within(1e-4));
    assertThat(reading.doubts()).isEmpty();
    ReadingChecks.isStampedSince(reading, before, clock());
  }

  @Test
  default void atEitherEndOfItsChannelItIsSaturatedAndNotClipped() throws InstrumentException {
    for (double value : new double[] {ends()[0], ends()[0] - 1.0, ends()[1], ends()[1] + 1.0}) {
      truth(value);
      Reading<Position> reading = role().read(soon());
      assertThat(reading.doubts()).containsExactly(Doubt.SATURATED);
      assertThat(reading.value().percent()).isCloseTo(value, within(1e-4));
    }
  }
}
