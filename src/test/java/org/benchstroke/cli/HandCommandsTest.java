package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** probe, drive, scan and find-map over real sockets. */
class HandCommandsTest {
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final double SCALE = 20.0;

  @TempDir Path folder;

  @Test
  void probeOfASoundBench() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      Command probe =
          Command.run("probe", "--bench", bench, "--unit-type", UNIT, "--seconds", "0.3");
      assertThat(probe.code()).as(probe.out()).isZero();
      assertThat(probe.out())
          .contains("SIMULATED bench", "nothing is sourced", "position transmitter", " % ")
          .contains("Every role answers soundly.");
    }
  }

  @Test
  void probeAsJson() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      Command probe = Command.run("probe", "--bench", bench, "--seconds", "0.2", "--json");
      JsonNode json = new ObjectMapper().readTree(probe.out());
      assertThat(json.path("ok").asBoolean()).isTrue();
      assertThat(json.path("simulated").asBoolean()).isTrue();
      assertThat(json.path("roles")).hasSize(5);
      assertThat(json.path("roles").get(0).path("identity").asText()).contains("LS24");
      assertThat(json.path("roles").findValuesAsText("value").toString()).contains(" mA");
    }
  }

  @Test
  void probeOfABenchThatIsNotThere() throws IOException {
    String text;
    try (SimulatorServer server = server()) {
      text = server.benchToml();
    }
    Command probe = Command.run("probe", "--bench", write("gone.toml", text), "--seconds", "0.1");
    assertThat(probe.code()).isEqualTo(3);
    assertThat(probe.out()).contains("NOT OK", "port gone", "check the cable");
  }

  @Test
  void mistakesOfBothFilesAreToldAtOnce() {
    for (String command : new String[] {"probe", "drive", "find-map"}) {
      Command wrong =
          Command.run(command, "--bench", folder.resolve("no.toml"), "--unit-type", "nor.toml");
      assertThat(wrong.code()).isEqualTo(2);
      assertThat(wrong.err()).contains("no.toml: there is no such file", "nor.toml: there is no");
    }
  }

  @Test
  void driveByHandAndLeaveSafe() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      Command drive =
          Command.typed(
              "25\n50%\nq\n", "drive", "--unattended", "--bench", bench, "--unit-type", UNIT);
      assertThat(drive.code()).as(drive.out() + drive.err()).isZero();
      assertThat(drive.out())
          .contains("THE UNIT WILL MOVE", "refused: 25.000 mA is outside 3.500 mA to 21.500 mA")
          .contains(
              "Safe signal: confirmed, the source reads back 4.000 mA",
              "Motor power: off by the relay");
    }
  }

  @Test
  void endOfTheInputEndsTheDriveSafely() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      Command drive =
          Command.typed("", "drive", "--unattended", "--bench", bench, "--unit-type", UNIT);
      assertThat(drive.out()).contains("Safe signal: confirmed, the source reads back 4.000 mA");
    }
  }

  /** What is piped in was written before any question: it answers no caution. */
  @Test
  void aPipeAnswersNoCaution() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      for (String command : new String[] {"drive", "find-map"}) {
        Command piped =
            Command.typed("y\ny\nmove\n", command, "--bench", bench, "--unit-type", UNIT);
        assertThat(piped.code()).isEqualTo(2);
        assertThat(piped.err()).contains("standard input is not a terminal", "--unattended");
        assertThat(piped.out()).isEmpty();
      }
    }
  }

  @Test
  void aRealBenchIsNeverUnattended() throws IOException {
    Path real = Path.of("demo-data/benches/modules-on-rs485.toml");
    for (String command : new String[] {"drive", "find-map"}) {
      Command alone =
          Command.typed("", command, "--unattended", "--bench", real, "--unit-type", UNIT);
      assertThat(alone.code()).isEqualTo(2);
      assertThat(alone.err()).contains("for simulated benches only");
      Command piped = Command.typed("y\n", command, "--bench", real, "--unit-type", UNIT);
      assertThat(piped.code()).isEqualTo(2);
      assertThat(piped.err()).contains("not a terminal").doesNotContain("--unattended");
    }
  }

  @Test
  void stepThatIsNoSizeIsRefused() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      Command drive =
          Command.typed(
              "", "drive", "--bench", bench, "--unit-type", UNIT, "--unattended", "--step", "much");
      assertThat(drive.code()).isEqualTo(2);
      assertThat(drive.err()).contains("--step: found much");
    }
  }

  @Test
  void swappedWordsAreFoundAndWrittenAfterAYes() throws IOException {
    try (SimulatorServer server = server()) {
      String wrong = server.benchToml().replaceFirst("order = \"ABCD\"", "order = \"CDAB\"");
      Path bench = write("bench.toml", wrong);
      Command search =
          Command.typed("yes\n", "find-map", "--unattended", "--bench", bench, "--unit-type", UNIT);
      assertThat(search.code()).as(search.out() + search.err()).isZero();
      assertThat(search.out())
          .contains("f32 ABCD", "Safe signal: confirmed, the source reads back 4.000 mA");
      Path found = folder.resolve("bench-found-1.toml");
      assertThat(Files.readString(bench)).isEqualTo(wrong);
      assertThat(Files.readString(found)).contains("order = \"ABCD\"").doesNotContain("CDAB");
      assertThat(Command.run("check", found).code()).isZero();
    }
  }

  @Test
  void withoutAYesNothingIsWritten() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench =
          write(
              "bench.toml",
              server.benchToml().replaceFirst("order = \"ABCD\"", "order = \"DCBA\""));
      Command search =
          Command.typed("y\n", "find-map", "--unattended", "--bench", bench, "--unit-type", UNIT);
      assertThat(search.code()).isEqualTo(3);
      assertThat(search.out()).contains("Nothing was written.");
      assertThat(folder.resolve("bench-found-1.toml")).doesNotExist();
    }
  }

  /** Two points would fit any line. The unit stands still, so that nothing explains the values. */
  @Test
  void threeValuesAreAskedForWhereNothingMayMove() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      Command search =
          Command.typed(
              "20\n35\n70\n", "find-map", "--bench", bench, "--unit-type", UNIT, "--typed");
      assertThat(search.code()).as(search.out() + search.err()).isEqualTo(3);
      assertThat(search.out())
          .contains("Value 1 of 3: bring it there", "Value 2 of 3", "Value 3 of 3")
          .contains("Nothing that was read explains the known values");
    }
  }

  @Test
  void wrongRequestsOfTheSearchAreRefused() throws IOException {
    try (SimulatorServer server = server()) {
      Path bench = write("bench.toml", server.benchToml());
      assertThat(search(bench, "--at", "25").err()).contains("--at: allowed are 2 to 6 positions");
      assertThat(search(bench, "--at", "25,120").code()).isEqualTo(2);
      assertThat(search(bench, "--at", "50,52").code()).isEqualTo(2);
      assertThat(search(bench, "--role", "oracle").err()).contains("found \"oracle\"");
      assertThat(search(bench, "--role", "loop meter").err()).contains("does not speak Modbus");
    }
  }

  @Test
  void scanTellsADeviceFromAGateway() throws IOException {
    try (SimulatorServer server = server()) {
      Endpoint.Tcp modbus = last(server);
      Command scan = Command.run("scan", modbus.text(), "--to", "4", "--timeout-ms", "2000");
      assertThat(scan.code()).as(scan.out()).isZero();
      assertThat(scan.out())
          .contains("changes nothing", "unit id   1  a device", "illegal data address")
          .contains("1 of 4 unit ids answered", "for 3 a gateway answered that nobody is there");
    }
  }

  @Test
  void scanOfAnRtuLineOverTcp() throws IOException, FileMistakes {
    Path bench = Path.of("demo-data/benches/modules-on-rs485.toml");
    SimulatedBench modules =
        SimulatedBench.around(
            VirtualBench.simulation("healthy-b"), bench.toString(), TomlDocument.textOf(bench));
    try (SimulatorServer server =
        SimulatorServer.start(modules, SystemClock.realTime(), Map.of())) {
      Command scan =
          Command.run("scan", last(server).text(), "--rtu", "--to", "3", "--timeout-ms", "1000");
      assertThat(scan.code()).as(scan.out() + scan.err()).isZero();
      assertThat(scan.out())
          .contains("unit id   1  a device", "unit id   2  a device", "2 of 3 unit ids answered");
    }
  }

  @Test
  void scanOfASilentPeer() throws IOException {
    try (ServerSocket silent = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
      Command scan =
          Command.run(
              "scan",
              "tcp://127.0.0.1:" + silent.getLocalPort(),
              "--to",
              "2",
              "--timeout-ms",
              "20");
      assertThat(scan.code()).isEqualTo(3);
      assertThat(scan.out()).contains("0 of 2 unit ids answered", "nobody answered");
    }
  }

  @Test
  void scanOfNothing() throws IOException {
    int port;
    try (ServerSocket gone = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = gone.getLocalPort();
    }
    Command scan = Command.run("scan", "tcp://127.0.0.1:" + port, "--to", "2");
    assertThat(scan.code()).isEqualTo(3);
    assertThat(scan.err()).contains("port gone");
  }

  @Test
  void wrongScansAreRefused() {
    assertThat(Command.run("scan", "nowhere").err()).contains("found \"nowhere\"", "tcp://host");
    assertThat(Command.run("scan", "tcp://h:502", "--to", "300").code()).isEqualTo(2);
    assertThat(Command.run("scan", "tcp://h:502", "--rtu", "--from", "0").code()).isEqualTo(2);
    assertThat(Command.run("scan", "tcp://h:502", "--from", "9", "--to", "3").code()).isEqualTo(2);
    assertThat(Command.run("scan", "tcp://h:502", "--timeout-ms", "1").code()).isEqualTo(2);
    assertThat(Command.run("scan", "tcp://h:502", "--speed", "9600").err()).contains("serial port");
    assertThat(Command.run("scan", "serial:COM99", "--speed", "1").err()).contains("baud");
  }

  private static Command search(Path bench, Object option, Object value) throws IOException {
    return Command.typed("", "find-map", "--bench", bench, "--unit-type", UNIT, option, value);
  }

  private static SimulatorServer server() throws IOException {
    return SimulatorServer.start(
        SimulatedBench.of(VirtualBench.simulation("healthy-b")),
        SystemClock.scaled(SCALE),
        Map.of());
  }

  private static Endpoint.Tcp last(SimulatorServer server) {
    return server.addresses().values().stream().reduce((before, last) -> last).orElseThrow();
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }
}
