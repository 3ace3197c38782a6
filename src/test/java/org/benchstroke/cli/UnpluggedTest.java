package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.PtyPair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real {@code run} command over a serial line whose adapter is unplugged in the middle of a
 * test: what happens when is taken from the record itself, as it grows.
 */
@Timeout(300)
class UnpluggedTest {
  private static final Path BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");
  private static final double SCALE = 4;
  private static final String FIRST_POINT = "travel 20 up";
  private static final String NOT_CONFIRMED = "\"confirmed\":false";

  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "travel error"
      points_pct = [0, 20, 40]
      cycles = 1
      """;

  @TempDir Path folder;

  @Test
  void pluggedInAgainTheTestIsBegunAgain() throws Exception {
    End end = run(Hand.PULLS_AND_PLUGS_IN, 60);
    assertThat(end.run().code()).as(said(end)).isZero();
    assertThat(faults(end)).contains("port gone");
    assertThat(outcomes(end)).startsWith("void").endsWith("complete");
    List<Event.MadeSafe> safe = end.record().events(Event.MadeSafe.class).toList();
    assertThat(safe).anyMatch(s -> !s.confirmed());
    assertThat(safe.get(safe.size() - 1).confirmed()).isTrue();
  }

  @Test
  void leftUnpluggedTheRunEndsAndSaysWhatItCouldNotConfirm() throws Exception {
    End end = run(Hand.PULLS, 3);
    assertThat(end.run().code()).as(said(end)).isEqualTo(3);
    assertThat(said(end)).contains("commanded, but not confirmed").contains("not back within");
    assertThat(faults(end)).contains("port gone");
    assertThat(end.record().flaws()).isEmpty();
    assertThat(end.record().closed().orElseThrow().how()).isEqualTo("fault");
    assertThat(outcomes(end)).containsOnly("void");
  }

  /** The port is there, but nothing goes through: opened anew it works again. */
  @Test
  void aHungAdapterThatIsPluggedAnewIsFoundAgain() throws Exception {
    End end = run(Hand.HANGS, 60);
    assertThat(end.run().code()).as(said(end)).isZero();
    assertThat(faults(end)).contains("no reply");
    assertThat(outcomes(end)).startsWith("void").endsWith("complete");
    List<Event.MadeSafe> safe = end.record().events(Event.MadeSafe.class).toList();
    assertThat(safe).anyMatch(s -> !s.confirmed());
    assertThat(safe.get(safe.size() - 1).confirmed()).isTrue();
  }

  /** What a hand does to the cable in the middle of the test. */
  private enum Hand {
    PULLS_AND_PLUGS_IN,
    PULLS,
    HANGS
  }

  private record End(Command run, RunRecord record) {}

  private static String said(End end) {
    return end.run().out() + end.run().err();
  }

  private static List<String> faults(End end) {
    return end.record().events(Event.Faulted.class).map(Event.Faulted::fault).toList();
  }

  private static List<String> outcomes(End end) {
    return end.record().events(Event.TestEnded.class).map(Event.TestEnded::outcome).toList();
  }

  private End run(Hand does, int recoverySeconds) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    SimulatedBench bench = SimulatedBench.around(simulation, "bench", Files.readString(bench()));
    Endpoint.Serial line = bench.serialLine("rs485").orElseThrow();
    Path records = Files.createDirectory(folder.resolve("records"));
    try (PtyPair cable = PtyPair.in(folder);
        SimulatorServer server =
            SimulatorServer.start(
                bench,
                SystemClock.scaled(SCALE),
                Map.of(),
                List.of(new SerialPlace(line, cable.far().port(), cable.near().port())),
                500_000L)) {
      CompletableFuture<Void> hand = hand(cable, records, does);
      Command run =
          Command.run(
              Command.runArguments(
                  Files.writeString(folder.resolve("written.toml"), server.benchToml()),
                  type(recoverySeconds),
                  Files.writeString(folder.resolve("brief.toml"), BRIEF),
                  records));
      hand.get(10, TimeUnit.SECONDS);
      return new End(run, RecordReader.read(record(records)));
    }
  }

  /** Pulls the cable in the middle of the test; plugs it in once the run has noticed. */
  private static CompletableFuture<Void> hand(PtyPair cable, Path records, Hand does)
      throws IOException {
    RecordTail tail = new RecordTail(records);
    return CompletableFuture.runAsync(
        () -> {
          try (tail) {
            tail.await(FIRST_POINT);
            if (does == Hand.HANGS) {
              cable.hang();
              tail.await(NOT_CONFIRMED);
            }
            cable.pull();
            tail.await(NOT_CONFIRMED);
            if (does != Hand.PULLS) {
              cable.plugIn();
            }
          }
        });
  }

  private Path type(int recoverySeconds) throws IOException {
    String type = Files.readString(Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    return Files.writeString(
        folder.resolve("type.toml"),
        type.replaceAll("(?s)\\[limits].*", "")
            + "[limits]\ntravel_error_pct = 1.0\n[practice]\nrecovery_s = "
            + recoverySeconds
            // A busy machine is not what is looked at here.
            + "\ngap_periods = 20\nattempts = 10\n");
  }

  /** A pseudo-terminal has no parity bit; with two stop bits a character still has 11 bits. */
  private Path bench() throws IOException {
    String text = Files.readString(BENCH);
    return Files.writeString(
        folder.resolve("bench.toml"),
        text.replace("speed = 38400", "speed = 115200")
            // This run is dated by the wall: the invented certificate must not run out.
            .replaceAll("due = 20\\d\\d-", "due = 2099-")
            .replace("parity = \"even\"", "parity = \"none\"\nstop_bits = 2"));
  }

  private static Path record(Path records) throws IOException {
    try (Stream<Path> files = Files.walk(records)) {
      return files.filter(f -> f.toString().endsWith(".jsonl")).findFirst().orElseThrow();
    }
  }

  /** Waits for words in the record of a folder while it is being written. */
  private static final class RecordTail implements AutoCloseable {
    private static final long LONGEST_WAIT_SECONDS = 120;

    private final Path folder;
    private final WatchService watch;

    RecordTail(Path folder) throws IOException {
      this.folder = folder;
      this.watch = folder.getFileSystem().newWatchService();
      folder.register(
          watch, StandardWatchEventKinds.ENTRY_CREATE, StandardWatchEventKinds.ENTRY_MODIFY);
    }

    void await(String words) {
      try {
        while (!contains(words)) {
          WatchKey key = watch.poll(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS);
          if (key == null) {
            throw new IllegalStateException("the record did not come to " + words);
          }
          key.pollEvents();
          key.reset();
        }
      } catch (IOException | InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }

    @Override
    public void close() {
      try {
        watch.close();
      } catch (IOException e) {
        throw new IllegalStateException(e);
      }
    }

    private boolean contains(String words) throws IOException {
      try (Stream<Path> files = Files.walk(folder)) {
        Path found = files.filter(f -> f.toString().endsWith(".jsonl")).findFirst().orElse(null);
        return found != null && Files.readString(found).contains(words);
      }
    }
  }
}
