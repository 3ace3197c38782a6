package org.benchstroke.io.instrument.contract;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.SignalSource;
import org.junit.jupiter.api.Test;

/** What every {@link SignalSource} keeps to. */
public interface SignalSourceContract extends RoleContract {
  SignalSource role();

  /** The current at the terminals in mA; empty while the output is off. */
  OptionalDouble truth();

  /** From now on it answers as if all were well and sets nothing. */
  void jam();

  @Override
  default void use(Deadline deadline) throws InstrumentException {
    role().apply(Current.ofMilliamps(12.0), deadline);
  }

  @Test
  default void appliesAndTellsWhatItMade() throws InstrumentException {
    for (double milliamps : new double[] {4.0, 12.345, 20.0, 3.5}) {
      long before = clock().nanos();
      Reading<Current> reading = role().apply(Current.ofMilliamps(milliamps), soon());
      assertThat(reading.value().milliamps()).isCloseTo(milliamps, within(1e-6));
      assertThat(truth().getAsDouble()).isCloseTo(milliamps, within(1e-6));
      ReadingChecks.isStampedSince(reading, before, clock());
    }
  }

  @Test
  default void takesTheEndsOfItsRange() throws InstrumentException {
    role().apply(role().lowest(), soon());
    role().apply(role().highest(), soon());
    assertThat(truth().getAsDouble()).isCloseTo(role().highest().milliamps(), within(1e-6));
  }

  @Test
  default void refusesWhatIsOutsideItsRangeWithoutSendingIt() throws InstrumentException {
    instrument().connect(soon());
    int before = peer().sent();
    for (double outside :
        new double[] {role().lowest().milliamps() - 0.001, role().highest().milliamps() + 0.001}) {
      InstrumentException failure =
          catchThrowableOfType(
              InstrumentException.class, () -> role().apply(Current.ofMilliamps(outside), soon()));
      assertThat(failure.kind()).isEqualTo(Kind.REFUSED);
      assertThat(failure).hasMessageContaining("outside its range").hasMessageContaining(" mA");
    }
    assertThat(peer().sent()).isEqualTo(before);
  }

  @Test
  default void releaseOpensTheLoop() throws InstrumentException {
    role().apply(Current.ofMilliamps(12.0), soon());
    role().release(soon());
    assertThat(truth()).isEmpty();
  }

  @Test
  default void aSettingThatDidNotTakeEffectIsNoticed() throws InstrumentException {
    role().apply(Current.ofMilliamps(4.0), soon());
    jam();
    InstrumentException less = failure();
    assertThat(less.kind()).isEqualTo(Kind.BAD_REPLY);
    // Each of these sources holds 4 mA where 12 mA was set: it may not be able to.
    assertThat(less.getMessage())
        .contains("; the source is at the end of its range or of its voltage, or the loop's")
        .endsWith("then that the bench file describes this instrument");
    InstrumentException more =
        catchThrowableOfType(
            InstrumentException.class, () -> role().apply(role().lowest(), soon()));
    assertThat(more)
        .hasMessageEndingWith(
            "); check the link and who else talks on it, and that the bench file describes this"
                + " instrument");
    InstrumentException release =
        catchThrowableOfType(InstrumentException.class, () -> role().release(soon()));
    assertThat(release.kind()).isEqualTo(Kind.BAD_REPLY);
  }
}
