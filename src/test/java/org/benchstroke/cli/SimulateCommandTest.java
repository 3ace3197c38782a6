package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code simulate} says and refuses, with one station and with several. */
class SimulateCommandTest {
  private static final Path SOUND = Path.of("simulators/healthy-b.toml");
  private static final Path SPAN = Path.of("simulators/span-error.toml");
  private static final Path NO_RELAY = Path.of("demo-data/benches/four-wire-feedback.toml");

  @TempDir Path folder;

  private static Station station(int number, Path simulation, Optional<Path> played)
      throws Exception {
    Simulation unit = SimulationReader.read(simulation);
    SimulatedBench bench =
        played.isEmpty()
            ? SimulatedBench.builtIn(unit)
            : SimulatedBench.around(unit, "bench", TomlDocument.textOf(played.get()));
    Path file = Path.of("records", "bench-" + number + ".toml");
    return new Station(number, bench, Optional.empty(), file, 0, List.of());
  }

  private static ServedStations served(Station... stations) throws WrongRequest {
    return ServedStations.serve(List.of(stations), 20.0, 0, slowed -> {});
  }

  private static List<String> keys(JsonNode node) {
    List<String> keys = new ArrayList<>();
    node.fieldNames().forEachRemaining(keys::add);
    return keys;
  }

  private static JsonNode json(ServedStations stations) throws Exception {
    StringWriter out = new StringWriter();
    new SimulateScreen(Shown.on(new PrintWriter(out)), 20.0).tellJson(stations);
    assertThat(out.toString().strip()).doesNotContain("\n");
    return new ObjectMapper().readTree(out.toString());
  }

  private static String words(ServedStations stations) {
    StringWriter out = new StringWriter();
    new SimulateScreen(Shown.on(new PrintWriter(out)), 20.0).tell(stations);
    return out.toString();
  }

  /** Below the ports that the system gives away, and another one in each process. */
  private static int firstPort() {
    return 10_000 + (int) (ProcessHandle.current().pid() % 2_000) * 10;
  }

  @Test
  void filesAreNumberedOnlyIfThereAreSeveral() {
    Path named = Path.of("records", "bench.toml");
    assertThat(Station.file(named, 1, 1)).isEqualTo(named);
    assertThat(Station.file(named, 2, 12)).isEqualTo(Path.of("records", "bench-2.toml"));
    assertThat(Station.file(named, 12, 12)).isEqualTo(Path.of("records", "bench-12.toml"));
    assertThat(Station.file(Path.of("a.b", "bench"), 2, 2)).isEqualTo(Path.of("a.b", "bench-2"));
    assertThat(Station.file(Path.of(".bench"), 2, 2)).isEqualTo(Path.of(".bench-2"));
    assertThat(Station.file(Path.of("a.b.json"), 2, 2)).isEqualTo(Path.of("a.b-2.json"));
  }

  @Test
  void portsAreInARowOrAnyThatAreFree() throws Exception {
    Station any = station(1, SOUND, Optional.empty());
    assertThat(any.ports()).isEmpty();
    Station row = new Station(2, any.bench(), Optional.empty(), any.benchFile(), 6004, List.of());
    assertThat(row.ports().keySet()).isEqualTo(any.bench().ports().keySet());
    assertThat(row.ports().values()).containsExactlyInAnyOrder(6004, 6005, 6006);
  }

  @Test
  void aRowPastTheLastPortIsRefused() {
    assertThat(Command.run("simulate", SOUND, SPAN, "--port", 65531).err())
        .isEqualTo("--port: found 65531, allowed is 0 to 65530 for 6 ports in a row\n");
    assertThat(Command.run("simulate", SOUND, "--stations", 3, "--port", -1).err())
        .isEqualTo("--port: found -1, allowed is 0 to 65527 for 9 ports in a row\n");
  }

  @Test
  void whatSeveralStationsCanNotDoIsOneLine() {
    assertThat(Command.run("simulate", SOUND, "--stations", 0).err())
        .isEqualTo("--stations: found 0, allowed is 1 to 100\n");
    assertThat(Command.run("simulate", SOUND, "--stations", 101).code()).isEqualTo(2);
    assertThat(Command.run("simulate", "--list", "simulators", "demo-data").err())
        .isEqualTo("--list: found 2 folders, allowed is one\n");
  }

  @Test
  void serialPortsOfSeveralStationsAreNumbered() throws Exception {
    SimulatedBench bench =
        SimulatedBench.around(SimulationReader.read(SOUND), "bench", SerialBench.text());
    List<String> written = List.of("rs485=/tmp/far,serial:near");
    SerialPlace one = new SerialOption(bench, 1, 1).places(written).get(0);
    assertThat(one.far().text()).isEqualTo("serial:/tmp/far");
    assertThat(one.near().text()).isEqualTo("serial:near");
    SerialPlace twelfth = new SerialOption(bench, 12, 12).places(written).get(0);
    assertThat(twelfth.far().text()).isEqualTo("serial:/tmp/far-12");
    assertThat(twelfth.near().text()).isEqualTo("serial:near-12");
  }

  @Test
  void serialPortsThatSeveralStationsCanNotShareAreRefused() throws Exception {
    Path bench = Files.writeString(folder.resolve("bench.toml"), SerialBench.text());
    assertThat(serial(bench, "rs485=far").err())
        .startsWith("--serial: found \"rs485=far\", ")
        .contains("LINE=PORT,NEAR", "serial:/dev/ttyUSB0")
        .hasLineCount(1);
    assertThat(serial(bench, "rs485=usb:9999:0001,near").err())
        .startsWith("--serial: found \"usb:9999:0001\", ")
        .contains("one adapter", "far-1")
        .hasLineCount(1);
    assertThat(serial(bench, "rs485=" + folder.resolve("far") + ",near").err())
        .startsWith("--serial: station 1 (")
        .contains("far-1")
        .hasLineCount(1);
  }

  private Command serial(Path bench, String option) {
    Path written = folder.resolve("written.toml");
    return Command.run(
        "simulate", SOUND, SPAN, "--bench", bench, "--bench-file", written, "--serial", option);
  }

  @Test
  void theBenchFileThatIsPlayedIsNoStationsToo() throws Exception {
    Path played = Files.copy(NO_RELAY, folder.resolve("own-2.toml"));
    Command refused =
        Command.run(
            "simulate", SOUND, SPAN, "--bench", played, "--bench-file", folder.resolve("own.toml"));
    assertThat(refused.err())
        .startsWith(played + ": is the bench file that is played itself; name another");
    assertThat(played).hasSameTextualContentAs(NO_RELAY);
  }

  /** The second station's first port: whatever the first one had opened is free again. */
  @Test
  void aTakenPortNamesTheStationAndNothingStaysOpen() throws Exception {
    int first = firstPort();
    byte[] local = {127, 0, 0, 1};
    try (ServerSocket taken = new ServerSocket(first + 3, 1, InetAddress.getByAddress(local))) {
      Path file = folder.resolve("bench.toml");
      Command refused = Command.run("simulate", SOUND, SPAN, "--port", first, "--bench-file", file);
      assertThat(refused.code()).isEqualTo(2);
      assertThat(refused.err())
          .startsWith("--port: station 2 (Span error): port " + taken.getLocalPort())
          .contains("choose another")
          .hasLineCount(1);
      assertThat(folder).isEmptyDirectory();
    }
    try (ServerSocket again = new ServerSocket(first, 1, InetAddress.getByAddress(local))) {
      assertThat(again.isBound()).isTrue();
    }
  }

  @Test
  void jsonOfOneStationIsAnObjectAndOfSeveralAListOfThem() throws Exception {
    try (ServedStations one = served(station(1, SOUND, Optional.empty()))) {
      assertThat(keys(json(one)))
          .containsExactly(
              "simulation", "source", "loop meter", "position input", "bench_file", "bench");
    }
    try (ServedStations two =
        served(station(1, SOUND, Optional.empty()), station(2, SPAN, Optional.empty()))) {
      JsonNode all = json(two);
      assertThat(keys(all)).containsExactly("stations");
      assertThat(all.get("stations")).hasSize(2);
      JsonNode second = all.get("stations").get(1);
      assertThat(second.get("simulation").asText()).isEqualTo("Span error");
      assertThat(second.get("seed").asInt()).isEqualTo(4);
      assertThat(second.get("bench_file").asText()).isEqualTo("records/bench-2.toml");
      assertThat(second.get("unit_type").asText())
          .isEqualTo("demo-data/unit-types/quarter-turn-15s.toml");
      BenchFile bench =
          BenchFileReader.read(TomlDocument.parse("bench", second.get("bench").asText()));
      assertThat(bench.simulation().orElseThrow().shows()).contains("2 % too much");
      assertThat(bench.instruments().get(0).endpoint().text())
          .isEqualTo(second.get("source").asText())
          .isNotEqualTo(all.get("stations").get(0).get("source").asText());
    }
  }

  @Test
  void theScreenHasALineToTestEachStation() throws Exception {
    try (ServedStations two =
        served(station(1, SPAN, Optional.empty()), station(2, SPAN, Optional.empty()))) {
      String text = words(two);
      assertThat(text)
          .contains("2 stations, 20 × real time", "1  Span error, seed 4", "2  Span error, seed 4")
          .containsOnlyOnce("too much at 100 %")
          .doesNotContain("relay");
      assertThat(text.lines().filter(line -> line.contains(" run --unattended ")))
          .hasSize(2)
          .anyMatch(line -> line.contains(" --bench records/bench-2.toml --unit-type demo-data/"))
          .anyMatch(line -> line.contains(" --serial SIM-2 "));
    }
  }

  @Test
  void aNumberSwitchesTheSupplyOfThatStationOnly() throws Exception {
    Station first = station(1, SOUND, Optional.of(NO_RELAY));
    Station second = station(2, SPAN, Optional.of(NO_RELAY));
    try (ServedStations two = served(first, second)) {
      assertThat(words(two)).contains("type a station's number and Enter");
      assertThat(two.turnMotorSupply("2")).isEqualTo("Station 2: motor supply ON");
      assertThat(first.bench().motorSupply()).isFalse();
      assertThat(second.bench().motorSupply()).isTrue();
      for (String wrong : List.of("", "0", "3", "two")) {
        assertThat(two.turnMotorSupply(wrong))
            .isEqualTo("found \"" + wrong + "\", allowed is a station's number, 1 to 2");
      }
      assertThat(two.turnMotorSupply("2")).isEqualTo("Station 2: motor supply off");
    }
    try (ServedStations one = served(first)) {
      assertThat(words(one)).contains("Enter switches the motor supply");
      assertThat(one.turnMotorSupply("")).isEqualTo("Motor supply ON");
      assertThat(one.turnMotorSupply("anything")).isEqualTo("Motor supply off");
    }
  }
}
