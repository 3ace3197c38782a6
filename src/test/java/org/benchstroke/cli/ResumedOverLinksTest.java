package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.Reports;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.Seal;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * {@code run --resume} over real sockets, by one clock: a run was killed at the end of a test and
 * left its source at 20 mA.
 */
@Timeout(300)
class ResumedOverLinksTest {
  private static final String TESTS =
      """
      kind = "procedure"
      format = 1
      name = "Three tests"
      version = "1"
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      repeats = 3
      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["low", "lost", "open loop"]
      """;

  @TempDir Path folder;

  private final LeapingClock clock = new LeapingClock();
  private final TreeSet<Path> known = new TreeSet<>();

  private SimulatorServer server(Map<Endpoint, Integer> ports) throws Exception {
    return SimulatorServer.start(
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml"))),
        clock.followed(),
        ports);
  }

  private Command run(Object... more) {
    Object[] arguments =
        Command.runArguments(
            folder.resolve("bench.toml"),
            ShortRun.TYPE,
            folder.resolve("tests.toml"),
            folder.resolve("records"));
    return Command.run(clock, Stream.concat(Stream.of(arguments), Stream.of(more)).toArray());
  }

  /** The record that was not there before. */
  private Path fresh() throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve("records"))) {
      return files.filter(f -> f.toString().endsWith(".jsonl") && known.add(f)).toList().get(0);
    }
  }

  /** Whole lines up to the end of the second test, and what the disk got of the next. */
  private static void kill(Path record) throws IOException {
    List<String> lines = Files.readAllLines(record);
    int ends = 0;
    int last = 0;
    while (ends < 2) {
      ends += lines.get(last++).contains("\"kind\":\"test_ended\"") ? 1 : 0;
    }
    String torn = lines.get(last).substring(0, 9);
    Files.writeString(record, String.join("\n", lines.subList(0, last)) + "\n" + torn);
    Files.delete(record.resolveSibling(record.getFileName() + ".seal"));
  }

  /** Asks the source without any of our drivers. */
  private static String said(SimulatorServer server, String request) throws IOException {
    int port = server.addresses().get(BuiltInBench.SOURCE).port();
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port);
        BufferedReader in =
            new BufferedReader(
                new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII))) {
      socket.getOutputStream().write((request + "\n").getBytes(StandardCharsets.US_ASCII));
      return in.readLine();
    }
  }

  /** A run that was whole, cut to what a kill leaves; its judgement is what it must come to. */
  private JudgedRun killed(SimulatorServer server) throws Exception {
    Files.writeString(folder.resolve("bench.toml"), server.benchToml());
    Files.writeString(folder.resolve("tests.toml"), TESTS);
    Command whole = run();
    assertThat(whole.code()).as(whole.out() + whole.err()).isZero();
    Path record = fresh();
    JudgedRun uninterrupted = Reports.judge(record);
    kill(record);
    String left = said(server, "SOUR:CURR 0.02;:OUTP ON;:SOUR:CURR?");
    assertThat(Double.parseDouble(left)).isEqualTo(0.02);
    return uninterrupted;
  }

  /** Of the tests that were taken over: where else it rested belongs to the whole run. */
  private static List<Optional<Double>> taken(JudgedRun run) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(
            m ->
                m.kind() == MeasureKind.STROKE_TIME_OPENING
                    || m.kind() == MeasureKind.STROKE_TIME_CLOSING
                    || (m.kind() == MeasureKind.TRAVEL_ERROR && m.place() instanceof Location.Side))
        .map(m -> m.value())
        .toList();
  }

  /** What the new run did itself, behind the lines that it took over. */
  private static List<Event> own(RunRecord record) {
    List<Event> all = new ArrayList<>();
    record.entries().forEach(entry -> all.add(entry.event()));
    int from = 0;
    for (int i = 0; i < all.size(); i++) {
      from = all.get(i) instanceof Event.Resumed r ? i + 1 + r.lines() : from;
    }
    return all.subList(from, all.size());
  }

  private static void assertSafeFirst(RunRecord record) {
    List<Event> after = own(record);
    int safe = first(after, Event.MadeSafe.class);
    assertThat(((Event.MadeSafe) after.get(safe)).confirmed()).isTrue();
    assertThat(first(after, Event.Commanded.class)).isGreaterThan(safe);
    assertThat(first(after, Event.TestBegan.class)).isGreaterThan(safe);
  }

  private static int first(List<Event> events, Class<?> kind) {
    int at = 0;
    while (!kind.isInstance(events.get(at))) {
      at++;
    }
    return at;
  }

  @Test
  void itGoesOnWithTheSafeSignalFirstAndIsWhole() throws Exception {
    try (SimulatorServer server = server(Map.of())) {
      JudgedRun uninterrupted = killed(server);
      Path killed = known.first();
      Command resumed = run("--resume", killed);
      assertThat(resumed.code()).as(resumed.out() + resumed.err()).isZero();
      assertThat(resumed.err()).contains(killed + ": this run was interrupted");
      assertThat(resumed.out().replaceAll("\\s+", " "))
          .contains("safe signal, 4.000 mA, was put on first: confirmed")
          .contains("not run again: stroke time, travel error")
          .contains("PASSED");
      RunRecord record = RecordReader.read(fresh());
      assertSafeFirst(record);
      assertThat(record.flaws()).isEmpty();
      assertThat(record.seal().map(Seal::state)).contains(Seal.State.SEALED);
      JudgedRun judged = Reports.judge(newest());
      assertThat(judged.passed()).as(judged.reason()).isTrue();
      assertThat(judged.complete()).isTrue();
      assertThat(taken(judged)).isEqualTo(taken(uninterrupted)).isNotEmpty();
      assertThat(said(server, "SOUR:CURR?"))
          .satisfies(amps -> assertThat(Double.parseDouble(amps)).isEqualTo(0.004));
    }
  }

  private static Map<Endpoint, Integer> ports(SimulatorServer server) {
    Map<Endpoint, Integer> ports = new HashMap<>();
    server.addresses().forEach((written, at) -> ports.put(written, at.port()));
    return ports;
  }

  private Path newest() {
    return known.last();
  }

  /**
   * The source says nothing: nobody can tell whether the unit that was left is safe, so nothing is
   * commanded, and it is told; the next start knows it still. When it answers again the run goes
   * on.
   */
  @Test
  void whileTheSourceIsSilentNothingIsRunAndItIsTold() throws Exception {
    Map<Endpoint, Integer> ports;
    try (SimulatorServer server = server(Map.of())) {
      killed(server);
      ports = ports(server);
    }
    Path killed = known.first();
    Path silentRun;
    int source = ports.get(BuiltInBench.SOURCE);
    // The kernel takes the connection of whoever comes; nobody answers.
    try (ServerSocket silent = new ServerSocket(source, 16, InetAddress.getLoopbackAddress())) {
      assertThat(silent.isBound()).isTrue();
      Command refused = run("--resume", killed);
      String said = (refused.out() + refused.err()).replaceAll("\\s+", " ");
      assertThat(refused.code()).as(said).isEqualTo(ExitCode.NOT_COMPLETED);
      assertThat(refused.err())
          .contains(killed + ": this run was interrupted, so its unit may not have been left safe");
      assertThat(said).contains("Safe signal: ").doesNotContain("Safe signal: confirmed");
      silentRun = fresh();
      RunRecord record = RecordReader.read(silentRun);
      assertThat(Reports.judge(silentRun).passed()).isFalse();
      List<Event> own = own(record);
      assertThat(own).noneMatch(Event.Commanded.class::isInstance);
      assertThat(own.stream().filter(Event.MadeSafe.class::isInstance))
          .isNotEmpty()
          .noneMatch(safe -> ((Event.MadeSafe) safe).confirmed());
    }
    try (SimulatorServer server = server(ports)) {
      assertThat(ports(server)).isEqualTo(ports);
      Command resumed = run("--resume", killed);
      assertThat(resumed.code()).as(resumed.out() + resumed.err()).isZero();
      assertThat(resumed.err()).contains(silentRun + ": this run ended without its safe signal");
      assertSafeFirst(RecordReader.read(fresh()));
    }
  }
}
