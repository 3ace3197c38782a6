package org.benchstroke.io.scpi;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.SocketPeer;
import org.benchstroke.io.transport.SystemLinks;
import org.junit.jupiter.api.Test;

/** Real sockets on this machine. */
class ScpiSocketTest {
  private static final long MILLI = 1_000_000L;

  private final SystemClock clock = SystemClock.realTime();

  private Deadline in(long millis) {
    return Deadline.inWall(clock, millis * MILLI);
  }

  private ScpiMeter<Current> meter(Endpoint endpoint) {
    return ScpiMeter.loop(
        "loop meter",
        new ScpiLine(new SystemLinks(), endpoint, clock),
        Channels.milliamps(0.0001, 0.0, 30.0));
  }

  private InstrumentException failure(ScpiMeter<Current> meter, long millis) {
    return catchThrowableOfType(InstrumentException.class, () -> meter.read(in(millis)));
  }

  private static void say(OutputStream out, String text) throws IOException {
    out.write(text.getBytes(StandardCharsets.US_ASCII));
  }

  private static void hear(InputStream in, String... lines) throws IOException {
    for (String line : lines) {
      assertThat(SocketPeer.line(in)).isEqualTo(line + "\n");
    }
  }

  @Test
  void setsReadsBackAndReleases() throws Exception {
    FakeScpiBox box = new FakeScpiBox();
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              String line = SocketPeer.line(in);
              while (!line.isEmpty()) {
                out.write(box.answer(line.getBytes(StandardCharsets.US_ASCII)));
                line = SocketPeer.line(in);
              }
            })) {
      ScpiSignalSource source =
          new ScpiSignalSource(
              "source",
              new ScpiLine(new SystemLinks(), peer.endpoint(), clock),
              Channels.milliamps(0.001, 0.0, 24.0));
      source.connect(in(2000));
      assertThat(source.identify(in(2000)).orElseThrow().serial()).isEqualTo("1001");
      assertThat(source.apply(Current.ofMilliamps(12.0), in(2000)).value().milliamps())
          .isCloseTo(12.0, within(1e-9));
      box.fails("-222,\"Data out of range\"");
      InstrumentException refused =
          catchThrowableOfType(
              InstrumentException.class, () -> source.apply(Current.ofMilliamps(20.0), in(2000)));
      assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
      source.release(in(2000));
      source.disconnect();
      peer.assertServed();
      assertThat(box.truth()).isEmpty();
    }
  }

  @Test
  void aGreetingIsNoReply() throws Exception {
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              say(out, "welcome\r\n");
              hear(in, "*CLS", "MEASure:CURRent?");
              say(out, "1.2003E-02\r\n");
              SocketPeer.untilClosed(in);
            })) {
      ScpiMeter<Current> meter = meter(peer.endpoint());
      assertThat(meter.read(in(2000)).value().milliamps()).isCloseTo(12.003, within(1e-9));
      meter.disconnect();
    }
  }

  @Test
  void aReplyAfterTheTimeOutNeverPassesForTheNext() throws Exception {
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              hear(in, "*CLS", "MEASure:CURRent?");
              SocketPeer.untilClosed(in);
              say(out, "4.0E-03\n");
            },
            (in, out) -> {
              hear(in, "*CLS", "MEASure:CURRent?");
              say(out, "1.2E-02\n");
              SocketPeer.untilClosed(in);
            })) {
      ScpiMeter<Current> meter = meter(peer.endpoint());
      assertThat(failure(meter, 200).kind()).isEqualTo(Kind.NO_REPLY);
      assertThat(meter.read(in(2000)).value().milliamps()).isCloseTo(12.0, within(1e-9));
      meter.disconnect();
      peer.assertServed();
    }
  }

  @Test
  void aSlowDripDoesNotStretchTheDeadline() throws Exception {
    SystemClock ticks = SystemClock.realTime();
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              hear(in, "*CLS", "MEASure:CURRent?");
              for (char c : "1.2003000E-02\n".toCharArray()) {
                ticks.waitUntil(ticks.nanos() + 50 * MILLI);
                out.write(c);
              }
            })) {
      ScpiMeter<Current> meter = meter(peer.endpoint());
      meter.connect(in(2000));
      long start = clock.nanos();
      InstrumentException failure = failure(meter, 200);
      // 14 bytes, 50 ms apart, would take 700 ms; the margin is for a busy machine.
      assertThat(clock.nanos() - start).isBetween(190 * MILLI, 500 * MILLI);
      assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
      assertThat(failure).hasMessageContaining("part of a line came, without its end");
    }
  }

  @Test
  void aHangUpIsPortGoneAndTheNextUseConnectsAnew() throws Exception {
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> hear(in, "*CLS", "MEASure:CURRent?"),
            (in, out) -> {
              hear(in, "*CLS", "MEASure:CURRent?");
              say(out, "0.012\n");
              SocketPeer.untilClosed(in);
            })) {
      ScpiMeter<Current> meter = meter(peer.endpoint());
      InstrumentException failure = failure(meter, 2000);
      assertThat(failure.kind()).isEqualTo(Kind.PORT_GONE);
      assertThat(failure).hasMessageContaining("loop meter at " + peer.endpoint().text());
      assertThat(meter.read(in(2000)).value().milliamps()).isCloseTo(12.0, within(1e-9));
      meter.disconnect();
    }
  }

  @Test
  void aReplyWithoutEndIsStoppedAtTheLongestReply() throws Exception {
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              hear(in, "*CLS", "MEASure:CURRent?");
              say(out, "1".repeat(2 * TextLine.LONGEST_REPLY));
              SocketPeer.untilClosed(in);
            })) {
      InstrumentException failure = failure(meter(peer.endpoint()), 2000);
      assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
      assertThat(failure).hasMessageContaining("longer than 1024 characters");
    }
  }

  @Test
  void aRefusedConnectionNamesHostAndPort() throws IOException {
    int free;
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      free = socket.getLocalPort();
    }
    InstrumentException failure = failure(meter(new Endpoint.Tcp("127.0.0.1", free)), 2000);
    assertThat(failure.kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(failure)
        .hasMessageContaining("cannot connect to tcp://127.0.0.1:" + free)
        .hasMessageContaining("check the cable");
  }
}
