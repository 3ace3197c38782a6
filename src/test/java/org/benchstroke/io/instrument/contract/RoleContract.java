package org.benchstroke.io.instrument.contract;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.FakePeer.Mood;
import org.junit.jupiter.api.Test;

/** What every driver of every role keeps to. Each test has an instrument of its own. */
public interface RoleContract {
  /** Long enough for every exchange of a role, short enough to be seen. */
  long LIMIT_NANOS = 500_000_000L;

  VirtualClock clock();

  FakePeer peer();

  Instrument instrument();

  /** Uses the role once. */
  void use(Deadline deadline) throws InstrumentException;

  default Deadline soon() {
    return Deadline.in(clock(), LIMIT_NANOS);
  }

  default InstrumentException failure() {
    return catchThrowableOfType(InstrumentException.class, () -> use(soon()));
  }

  @Test
  default void aConstructorOpensNothing() {
    assertThat(instrument().name()).isNotEmpty();
    assertThat(peer().opened()).isZero();
  }

  @Test
  default void connectsOnceAndDisconnectsAsOftenAsOneLikes() throws InstrumentException {
    instrument().connect(soon());
    instrument().connect(soon());
    use(soon());
    assertThat(peer().opened()).isEqualTo(1);
    instrument().disconnect();
    instrument().disconnect();
  }

  @Test
  default void silenceIsNoReplyAtTheDeadlineAndIsTriedOnce() throws InstrumentException {
    instrument().connect(soon());
    peer().is(Mood.SILENT);
    int before = peer().sent();
    long start = clock().nanos();
    InstrumentException failure = failure();
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(clock().nanos() - start).isEqualTo(LIMIT_NANOS);
    // What prepares a first command, the command, and one question; nothing of it twice.
    assertThat(peer().sent() - before).isLessThanOrEqualTo(3);
    assertThat(failure)
        .hasMessageContaining(instrument().name() + " at tcp://bench.invalid:5025: no reply")
        .hasMessageContaining(" -> nothing")
        .hasMessageContaining("check that the instrument is on");
  }

  @Test
  default void afterSilenceTheNextUseHasAConnectionOfItsOwn() throws InstrumentException {
    use(soon());
    peer().is(Mood.SILENT);
    assertThat(failure().kind()).isEqualTo(Kind.NO_REPLY);
    peer().is(Mood.ANSWERS);
    int before = peer().opened();
    use(soon());
    assertThat(peer().opened()).isEqualTo(before + 1);
  }

  @Test
  default void aPortThatVanishesIsPortGone() throws InstrumentException {
    use(soon());
    peer().is(Mood.GONE);
    InstrumentException failure = failure();
    assertThat(failure.kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(failure).hasMessageContaining("check the cable");
    peer().is(Mood.ANSWERS);
    use(soon());
  }

  @Test
  default void aPortThatCannotBeOpenedIsPortGone() {
    peer().is(Mood.GONE);
    InstrumentException failure =
        catchThrowableOfType(InstrumentException.class, () -> instrument().connect(soon()));
    assertThat(failure.kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(failure).hasMessageContaining("tcp://bench.invalid:5025");
  }

  @Test
  default void garbageIsABadReplyAndEndsTheConnection() throws InstrumentException {
    instrument().connect(soon());
    peer().is(Mood.GARBLED);
    assertThat(failure().kind()).isEqualTo(Kind.BAD_REPLY);
    peer().is(Mood.ANSWERS);
    int before = peer().opened();
    use(soon());
    assertThat(peer().opened()).isEqualTo(before + 1);
  }

  @Test
  default void withNoTimeLeftNothingIsSent() throws InstrumentException {
    instrument().connect(soon());
    int before = peer().sent();
    InstrumentException failure =
        catchThrowableOfType(
            InstrumentException.class, () -> use(new Deadline(clock(), clock().nanos())));
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(peer().sent()).isEqualTo(before);
  }
}
