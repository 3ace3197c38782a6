package org.benchstroke.io.transport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.scpi.ScpiLine;
import org.benchstroke.io.scpi.ScpiMeter;
import org.benchstroke.io.scpi.ScpiSignalSource;
import org.benchstroke.io.transport.LinkException.Kind;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is captured is what went over the link, and replays. */
class CaptureTest {
  private static final Channel CHANNEL =
      new Channel(
          "mA", new Accuracy(0, 0, 0, 0.01), 0.001, OptionalDouble.of(0), OptionalDouble.of(24));
  private static final String MEASURE = "sent \"MEASure:CURRent?\\n\"";

  @TempDir private Path folder;

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  private List<String> steps(String file) throws IOException {
    return Files.readAllLines(folder.resolve(file)).stream()
        .filter(line -> !line.startsWith("#"))
        .toList();
  }

  @Test
  void aWholeRunAgainstTheSimulatorReplaysThroughTheMetersDriver() throws Exception {
    VirtualBench bench =
        VirtualBench.with("healthy-b")
            .links(
                links -> {
                  try {
                    return Capture.into(folder, links);
                  } catch (IOException e) {
                    throw new UncheckedIOException(e);
                  }
                });
    bench.run();
    assertThat(folder.toFile().list())
        .containsExactlyInAnyOrder(
            "tcp-simulated-5025.txt", "tcp-simulated-5026.txt", "tcp-simulated-502.txt");
    List<String> steps = steps("tcp-simulated-5026.txt");
    long readings = steps.stream().filter(MEASURE::equals).count();
    assertThat(readings).isGreaterThan(10);
    List<Double> read = new ArrayList<>();
    Replay.ofFileAtEveryChunkSize(
        folder.resolve("tcp-simulated-5026.txt"),
        replay -> {
          ScpiMeter<Current> meter =
              ScpiMeter.loop(
                  "meter", new ScpiLine(replay.links(), Replay.ENDPOINT, replay.clock()), CHANNEL);
          meter.connect(replay.inMillis(500));
          meter.identify(replay.inMillis(500));
          for (int i = 0; i < readings; i++) {
            read.add(meter.read(replay.inMillis(500)).value().milliamps());
          }
          meter.disconnect();
        });
    assertThat(read)
        .hasSize((int) readings * 80)
        .allSatisfy(mA -> assertThat(mA).isBetween(0., 24.));
  }

  /** The same calls on the live simulator and on its transcript. */
  private static void setAndRelease(LinkOpener links, Endpoint endpoint, BenchClock clock)
      throws InstrumentException {
    ScpiSignalSource source =
        new ScpiSignalSource("source", new ScpiLine(links, endpoint, clock), CHANNEL);
    source.connect(seconds(clock, 2));
    assertThat(source.identify(seconds(clock, 2))).isPresent();
    for (double milliamps : new double[] {4, 12, 20}) {
      assertThat(
              source.apply(Current.ofMilliamps(milliamps), seconds(clock, 2)).value().milliamps())
          .isCloseTo(milliamps, within(1e-6));
    }
    source.release(seconds(clock, 2));
    source.disconnect();
  }

  private static Deadline seconds(BenchClock clock, long seconds) {
    return Deadline.inWall(clock, seconds * 1_000_000_000L);
  }

  @Test
  void anExchangeOverSocketsReplaysAtEveryChunkSize() throws Exception {
    SystemClock clock = SystemClock.realTime();
    SimulatedBench bench = SimulatedBench.of(VirtualBench.simulation("healthy-b"));
    try (SimulatorServer server = SimulatorServer.start(bench, clock, Map.of());
        Capture capture = Capture.into(folder, new SystemLinks())) {
      setAndRelease(capture, server.addresses().get(BuiltInBench.SOURCE), clock);
    }
    Path file = folder.resolve(folder.toFile().list()[0]);
    assertThat(Files.readAllLines(file).get(0)).matches("# tcp://127.0.0.1:\\d+, captured .*Z");
    Replay.ofFileAtEveryChunkSize(
        file, replay -> setAndRelease(replay.links(), Replay.ENDPOINT, replay.clock()));
  }

  /** Plays every kind of step from a transcript through a capture, and compares the two. */
  @Test
  void everyKindOfStepIsWrittenAsItIsRead() throws Exception {
    List<String> played =
        List.of(
            "gone",
            "open",
            "came +5ms \"hello \\\"you\\\" \\\\\\r\\n\"",
            "sent 00 FF 22".toLowerCase(java.util.Locale.ROOT),
            "came +3ms 01 02 03",
            "came +2ms \"rest\"",
            "silence",
            "sent \"x\"",
            "gone",
            "closed",
            "open",
            "closed");
    Transcript transcript = Transcript.parse("played", String.join("\n", played), 100);
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    Endpoint endpoint =
        new Endpoint.Serial(new PortName.Device("/dev/ttyS9"), SerialSettings.USUAL);
    byte[] buffer = new byte[100];
    try (Capture capture = Capture.into(folder, transcript)) {
      assertThatThrownBy(() -> capture.open(endpoint, seconds(clock, 1)))
          .isInstanceOf(LinkException.class);
      ByteLink link = capture.open(endpoint, seconds(clock, 1));
      assertThat(link.endpoint()).isEqualTo(endpoint);
      assertThat(link.receive(buffer, 0, 100, seconds(clock, 1))).isEqualTo(15);
      link.send(new byte[] {0, (byte) 0xFF, 0x22}, seconds(clock, 1));
      assertThat(link.receive(buffer, 0, 100, seconds(clock, 1))).isEqualTo(3);
      assertThat(link.receive(buffer, 3, 97, seconds(clock, 1))).isEqualTo(4);
      assertThat(buffer).startsWith(1, 2, 3, 'r', 'e', 's', 't');
      assertThatThrownBy(() -> link.receive(buffer, 0, 9, seconds(clock, 1)))
          .isInstanceOfSatisfying(
              LinkException.class, e -> assertThat(e.kind()).isEqualTo(Kind.NO_REPLY));
      link.send(ascii("x"), seconds(clock, 1));
      assertThatThrownBy(() -> link.receive(buffer, 0, 9, seconds(clock, 1)))
          .isInstanceOfSatisfying(
              LinkException.class, e -> assertThat(e.kind()).isEqualTo(Kind.PORT_GONE));
      link.close();
      link.close();
      capture.open(endpoint, seconds(clock, 1)).close();
    }
    transcript.requireUsedUp();
    assertThat(steps("serial-dev-ttyS9.txt")).isEqualTo(played);
    assertThat(Files.readAllLines(folder.resolve("serial-dev-ttyS9.txt")))
        .startsWith(
            "# serial:/dev/ttyS9, captured 1970-01-01T00:00:00Z",
            "# 19200 baud, 8 data bits, even parity, 1 stop bit");
  }

  @Test
  void whatIsDrainedIsWrittenToo() throws Exception {
    String played = "open\ncame +10ms \"late\"\ncame +2ms \"r\"\nsent \"q\"\nclosed";
    Transcript transcript = Transcript.parse("played", played + "\n", 100);
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    // A transcript's receive fails where nothing but a sent is next; a quiet line is silent there.
    LinkOpener quiet = (endpoint, deadline) -> new QuietLink(transcript.open(endpoint, deadline));
    try (Capture capture = Capture.into(folder, quiet)) {
      ByteLink link = capture.open(Replay.ENDPOINT, seconds(clock, 1));
      assertThat(link.drain(50_000_000L, seconds(clock, 1))).isEqualTo(5);
      link.send(ascii("q"), seconds(clock, 1));
      link.close();
    }
    assertThat(steps("tcp-bench.invalid-5025.txt")).isEqualTo(played.lines().toList());
  }

  /** Gives what waits in a transcript, and then nothing. */
  private record QuietLink(ByteLink link) implements ByteLink {
    @Override
    public Endpoint endpoint() {
      return link.endpoint();
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      link.send(bytes, deadline);
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      try {
        return link.receive(buffer, offset, length, deadline);
      } catch (Transcript.Departure nothingComes) {
        throw new LinkException(Kind.NO_REPLY, "silent");
      }
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) throws LinkException {
      return link.drain(quietNanos, deadline);
    }

    @Override
    public void close() {
      link.close();
    }
  }

  @Test
  void nothingThatIsThereIsOverwrittenAndTwoOpenLinksHaveTwoFiles() throws Exception {
    Files.writeString(folder.resolve("tcp-bench.invalid-5025.txt"), "mine");
    LinkOpener links =
        (endpoint, deadline) ->
            new QuietLink(Transcript.parse("x", "open\nclosed", 1).open(endpoint, deadline));
    Deadline deadline = seconds(new VirtualClock(Instant.EPOCH), 1);
    try (Capture capture = Capture.into(folder, links)) {
      ByteLink first = capture.open(Replay.ENDPOINT, deadline);
      ByteLink second = capture.open(Replay.ENDPOINT, deadline);
      first.close();
      second.close();
      capture.open(Replay.ENDPOINT, deadline).close();
    }
    assertThat(Files.readString(folder.resolve("tcp-bench.invalid-5025.txt"))).isEqualTo("mine");
    assertThat(steps("tcp-bench.invalid-5025-2.txt"))
        .containsExactly("open", "closed", "open", "closed");
    assertThat(steps("tcp-bench.invalid-5025-3.txt")).containsExactly("open", "closed");
  }

  @Test
  void aFolderThatCantBeIsSaidAtOnce() throws IOException {
    Path file = Files.createFile(folder.resolve("file"));
    assertThatThrownBy(() -> Capture.into(file, new SystemLinks())).isInstanceOf(IOException.class);
  }
}
