package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A source that was left at 20 mA, over real sockets: whoever opens the bench next makes it safe,
 * whatever became of the other instruments.
 */
@Timeout(300)
class LeftLiveTest {
  private static final double SCALE = 20;
  private static final double SAFE_AMPS = 0.004;
  private static final String CONFIRMED = "Safe signal: confirmed, the source reads back 4.000 mA";

  /** What is wrong with an instrument that is no source. */
  private enum Trouble {
    /** Nobody listens at its address. */
    AWAY,
    /** It lets nobody stay. */
    HANGS_UP,
    /** It says nothing. */
    SILENT,
    /** It is another one. */
    ANOTHER
  }

  private record Case(String instrument, Trouble trouble) {}

  @TempDir Path folder;

  static Stream<Case> cases() {
    return Stream.of("loop meter", "position input")
        .flatMap(who -> Stream.of(Trouble.values()).map(trouble -> new Case(who, trouble)));
  }

  @Test
  void afterAKillTheNextRunMakesTheSourceSafeThoughTheInputIsAway() throws Exception {
    try (SimulatorServer server = server()) {
      Path bench = Files.writeString(folder.resolve("bench.toml"), server.benchToml());
      Path records = Files.createDirectory(folder.resolve("records"));
      kill(bench, records, "\"current_milliamps\":20.0");
      assertThat(setting(server)).isEqualTo(0.02);

      Path elsewhere = Files.createDirectory(folder.resolve("next"));
      Command next = run(troubled(server, new Case("position input", Trouble.AWAY)), elsewhere);

      assertMadeSafe(server, next);
      RunRecord record = RecordReader.read(ShortRun.recordIn(elsewhere));
      assertThat(record.events(Event.MadeSafe.class)).isNotEmpty().allMatch(s -> s.confirmed());
      // Safe before anyone else was asked for anything.
      List<Class<?>> order =
          record.entries().stream().<Class<?>>map(e -> e.event().getClass()).toList();
      assertThat(order.indexOf(Event.MadeSafe.class))
          .isEqualTo(order.indexOf(Event.Identified.class) + 2);
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void aRunMakesTheSourceSafeWhateverBecameOfAnother(Case each) throws Exception {
    try (SimulatorServer server = leftAt20();
        Peer peer = Peer.of(each.trouble())) {
      assertMadeSafe(server, run(troubled(server, each, peer), folder.resolve("records")));
    }
  }

  @ParameterizedTest
  @EnumSource(Trouble.class)
  void soDoesDrivingByHand(Trouble trouble) throws Exception {
    try (SimulatorServer server = leftAt20();
        Peer peer = Peer.of(trouble)) {
      Path bench = troubled(server, new Case("position input", trouble), peer);
      assertMadeSafe(
          server,
          Command.run("drive", "--unattended", "--bench", bench, "--unit-type", ShortRun.TYPE));
    }
  }

  @Test
  void probeSaysThatItIsLiveAndLeavesItSo() throws Exception {
    try (SimulatorServer server = leftAt20()) {
      Path bench = Files.writeString(folder.resolve("bench.toml"), server.benchToml());
      Command probe =
          Command.run("probe", "--bench", bench, "--unit-type", ShortRun.TYPE, "--seconds", "0.1");
      assertThat(probe.out().replaceAll("\\s+", " "))
          .contains("LIVE: set to 20.000 mA, and is left so", "hands clear");
      assertThat(setting(server)).isEqualTo(0.02);
      assertThat(said(server, "OUTP?")).isEqualTo("1");
    }
  }

  private static void assertMadeSafe(SimulatorServer server, Command command) throws IOException {
    String said = command.out() + command.err();
    assertThat(command.code()).as(said).isEqualTo(3);
    assertThat(setting(server)).as(said).isEqualTo(SAFE_AMPS);
    assertThat(command.out()).contains(CONFIRMED).doesNotContain("source is not proven");
  }

  private Command run(Path bench, Path records) {
    return Command.run(Command.runArguments(bench, ShortRun.TYPE, records));
  }

  private static SimulatorServer server() throws Exception {
    return SimulatorServer.start(
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml"))),
        SystemClock.scaled(SCALE),
        Map.of());
  }

  private static SimulatorServer leftAt20() throws Exception {
    SimulatorServer server = server();
    said(server, "SOUR:CURR 0.02;:OUTP ON;:SOUR:CURR?");
    assertThat(setting(server)).isEqualTo(0.02);
    return server;
  }

  /** Starts a run as a program of its own and kills it when its record has the words. */
  private void kill(Path bench, Path records, String words) throws Exception {
    Object[] arguments = Command.runArguments(bench, ShortRun.TYPE, records);
    try (RecordTail tail = new RecordTail(records)) {
      Process run =
          Command.program(arguments)
              .redirectErrorStream(true)
              .redirectOutput(folder.resolve("killed.txt").toFile())
              .start();
      try {
        tail.await(words);
      } finally {
        run.destroyForcibly();
      }
      assertThat(run.waitFor(30, TimeUnit.SECONDS)).isTrue();
    }
  }

  /** What the source is set to, asked without any of our drivers, A. */
  static double setting(SimulatorServer server) throws IOException {
    return Double.parseDouble(said(server, "SOUR:CURR?"));
  }

  private static String said(SimulatorServer server, String request) throws IOException {
    int port = server.addresses().get(BuiltInBench.SOURCE).port();
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      OutputStream out = socket.getOutputStream();
      out.write((request + "\n").getBytes(StandardCharsets.US_ASCII));
      out.flush();
      return new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII))
          .readLine();
    }
  }

  private Path troubled(SimulatorServer server, Case each) throws IOException {
    try (Peer nobody = Peer.of(Trouble.AWAY)) {
      return troubled(server, each, nobody);
    }
  }

  private Path troubled(SimulatorServer server, Case each, Peer peer) throws IOException {
    String toml = server.benchToml();
    int block = toml.indexOf("name = \"" + each.instrument() + "\"");
    String own = toml.substring(block);
    String changed =
        each.trouble() == Trouble.ANOTHER
            ? own.replaceFirst("serial = \"9", "serial = \"8")
            : own.replaceFirst("tcp://127.0.0.1:[0-9]+", "tcp://127.0.0.1:" + peer.port());
    assertThat(changed).isNotEqualTo(own);
    return Files.writeString(folder.resolve("troubled.toml"), toml.substring(0, block) + changed);
  }

  /** Who is at an instrument's address in its place. */
  private record Peer(int port, Optional<ServerSocket> listener) implements AutoCloseable {
    static Peer of(Trouble trouble) throws IOException {
      ServerSocket listener = new ServerSocket(0, 16, InetAddress.getLoopbackAddress());
      if (trouble == Trouble.AWAY) {
        listener.close();
        return new Peer(listener.getLocalPort(), Optional.empty());
      }
      if (trouble == Trouble.HANGS_UP) {
        Thread thread = new Thread(() -> hangUp(listener), "hangs up");
        thread.setDaemon(true);
        thread.start();
      }
      // The kernel takes the connection of whoever comes; nobody answers.
      return new Peer(listener.getLocalPort(), Optional.of(listener));
    }

    private static void hangUp(ServerSocket listener) {
      while (!listener.isClosed()) {
        try {
          listener.accept().close();
        } catch (IOException e) {
          // Closed: the test is over.
        }
      }
    }

    @Override
    public void close() throws IOException {
      if (listener.isPresent()) {
        listener.get().close();
      }
    }
  }
}
