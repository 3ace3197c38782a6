package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class SimulatedLinksTest {
  private static final long HALF_SECOND = 500_000_000L;

  private final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  private SimulatedLinks links;

  @BeforeEach
  void open() throws FileMistakes {
    links = SimulatedLinks.on(bench(), clock);
  }

  private static SimulatedBench bench() throws FileMistakes {
    return SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
  }

  private ByteLink link(Endpoint endpoint) throws LinkException {
    return links.open(endpoint, soon(clock));
  }

  private static Deadline soon(VirtualClock clock) {
    return Deadline.in(clock, HALF_SECOND);
  }

  private static byte[] text(String message) {
    return message.getBytes(StandardCharsets.US_ASCII);
  }

  @Test
  void exchangeTakesAboutTwoMilliseconds() throws LinkException {
    try (ByteLink link = link(BuiltInBench.SOURCE)) {
      link.send(text("*IDN?\n"), soon(clock));
      byte[] buffer = new byte[100];
      int count = link.receive(buffer, 2, 98, soon(clock));
      assertThat(new String(buffer, 2, count, StandardCharsets.US_ASCII))
          .startsWith("Example Instruments,LS24,");
      assertThat(clock.nanos()).isBetween(1_400_000L, 2_600_000L);
    }
  }

  @Test
  void answerIsHandedOutInThePiecesAskedFor() throws LinkException {
    try (ByteLink link = link(BuiltInBench.LOOP_METER)) {
      link.send(text("*OPC?\n"), soon(clock));
      byte[] buffer = new byte[1];
      assertThat(link.receive(buffer, 0, 1, soon(clock))).isEqualTo(1);
      assertThat(buffer[0]).isEqualTo((byte) '1');
      assertThat(link.receive(buffer, 0, 1, soon(clock))).isEqualTo(1);
      assertThat(buffer[0]).isEqualTo((byte) '\n');
    }
  }

  @Test
  void silenceLastsUntilTheDeadline() throws LinkException {
    try (ByteLink link = link(BuiltInBench.SOURCE)) {
      LinkException silence =
          catchThrowableOfType(
              LinkException.class, () -> link.receive(new byte[9], 0, 9, soon(clock)));
      assertThat(silence.kind()).isEqualTo(LinkException.Kind.NO_REPLY);
      assertThat(clock.nanos()).isEqualTo(HALF_SECOND);
    }
  }

  @Test
  void answerAfterTheDeadlineIsStillOnItsWay() throws LinkException {
    try (ByteLink link = link(BuiltInBench.SOURCE)) {
      link.send(text("*OPC?\n"), soon(clock));
      Deadline early = Deadline.in(clock, 100_000L);
      LinkException silence =
          catchThrowableOfType(LinkException.class, () -> link.receive(new byte[9], 0, 9, early));
      assertThat(silence.kind()).isEqualTo(LinkException.Kind.NO_REPLY);
      assertThat(link.drain(20_000_000L, soon(clock))).isEqualTo(2);
      assertThat(link.drain(20_000_000L, soon(clock))).isZero();
    }
  }

  @Test
  void unknownAddressRefuses() {
    LinkException refused =
        catchThrowableOfType(
            LinkException.class, () -> links.open(new Endpoint.Tcp("simulated", 9), soon(clock)));
    assertThat(refused.kind()).isEqualTo(LinkException.Kind.PORT_GONE);
  }

  @Test
  void linkIsGoneOnceEitherSideHasHungUp() throws LinkException {
    ByteLink link = link(BuiltInBench.MODBUS);
    link.send(text("GET / HTTP/1.1\r\n"), soon(clock));
    LinkException gone =
        catchThrowableOfType(
            LinkException.class, () -> link.receive(new byte[9], 0, 9, soon(clock)));
    assertThat(gone.kind()).isEqualTo(LinkException.Kind.PORT_GONE);
    ByteLink other = link(BuiltInBench.MODBUS);
    other.close();
    assertThat(
            catchThrowableOfType(LinkException.class, () -> other.send(new byte[1], soon(clock)))
                .kind())
        .isEqualTo(LinkException.Kind.PORT_GONE);
  }

  @Test
  void sameSeedGivesTheSameBytesAtTheSameTimes() throws LinkException, FileMistakes {
    byte[] first = session();
    assertThat(session()).isEqualTo(first);
    assertThat(first.length).isGreaterThan(1000);
  }

  /** Everything that comes back in a short session, with the instants at which it came. */
  private static byte[] session() throws LinkException, FileMistakes {
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    SimulatedLinks links = SimulatedLinks.on(bench(), clock);
    ByteLink source = links.open(BuiltInBench.SOURCE, soon(clock));
    ByteLink meter = links.open(BuiltInBench.LOOP_METER, soon(clock));
    ByteLink modbus = links.open(BuiltInBench.MODBUS, soon(clock));
    ByteArrayOutputStream seen = new ByteArrayOutputStream();
    byte[] powerOn = HexFormat.of().parseHex("000100000006010500 00FF00".replace(" ", ""));
    byte[] read = HexFormat.of().parseHex("000200000006010400000002");
    exchange(modbus, powerOn, clock, seen);
    source.send(text("OUTP ON;:SOUR:CURR 16 mA\n"), soon(clock));
    for (int i = 0; i < 60; i++) {
      exchange(modbus, read, clock, seen);
      exchange(meter, text("MEAS:CURR?\n"), clock, seen);
      clock.waitUntil(clock.nanos() + 100_000_000L);
    }
    return seen.toByteArray();
  }

  private static void exchange(
      ByteLink link, byte[] request, VirtualClock clock, ByteArrayOutputStream seen)
      throws LinkException {
    byte[] buffer = new byte[100];
    link.send(request, soon(clock));
    int count = link.receive(buffer, 0, buffer.length, soon(clock));
    seen.writeBytes(Arrays.copyOf(buffer, count));
    seen.writeBytes(text(clock.nanos() + "\n"));
  }
}
