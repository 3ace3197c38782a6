package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * One {@code simulate} as a program of its own that serves several stations, and a {@code run}
 * against each of them at the same time, over real sockets or pseudo-terminals. A gap on a busy
 * machine excuses a repeat at half the speed, and nothing else does.
 */
@Timeout(300)
class SeveralStationsTest {
  private static final int REPEATS = 4;
  private static final Path SOUND = Path.of("simulators/healthy-b.toml");
  private static final Path SPAN = Path.of("simulators/span-error.toml");

  private static final String BRIEF =
      """
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  private static final String LIMITS = "travel_error_pct = 1.0\n" + ShortRun.VERY_PATIENT;

  /** One answer of the position input is lost while the travel is measured. */
  private static final String LOST =
      """

      [[fault]]
      on = "position input"
      kind = "drop"
      exchange = 200
      """;

  @TempDir Path folder;

  @Test
  void eachOfThreeStationsIsAUnitOfItsOwn() throws Exception {
    List<ShortRun> ends = undisturbed(20, this::threeOnSockets);
    ShortRun sound = ends.get(0);
    ShortRun span = ends.get(1);
    ShortRun other = ends.get(2);
    requireOwnUnits(ends);
    assertThat(other.code()).as(other.said()).isZero();
    assertThat(other.record().opened().simulated()).contains("nothing to find");
    // The link fault of the second file is at the second station alone.
    assertThat(span.faults()).contains("no reply");
    assertThat(sound.faults()).doesNotContain("no reply");
    assertThat(other.faults()).doesNotContain("no reply");
    // The same file twice, yet not the same instruments: 1.4 µA apart, each to within 0.2 µA.
    assertThat(Math.abs(loopMilliamps(sound) - loopMilliamps(other))).isGreaterThan(0.0008);
  }

  /** One bench file and one option for both: each has its own cable. */
  @Test
  void twoStationsOnSerialPortsHaveACableEach() throws Exception {
    try (PtyPair first = PtyPair.in(folder, "-1");
        PtyPair second = PtyPair.in(folder, "-2")) {
      List<ShortRun> ends = undisturbed(12, this::twoOnSerialPorts);
      requireOwnUnits(ends);
      assertThat(benchOf(ends.get(0))).contains(first.near().port().text());
      assertThat(benchOf(ends.get(1))).contains(second.near().port().text());
    }
  }

  /** Of a sound unit at the first station and one whose span is off at the second. */
  private static void requireOwnUnits(List<ShortRun> ends) {
    ShortRun sound = ends.get(0);
    ShortRun span = ends.get(1);
    assertThat(sound.code()).as(sound.said()).isZero();
    assertThat(sound.record().opened().simulated()).contains("nothing to find");
    assertThat(span.code()).as(span.said()).isEqualTo(1);
    assertThat(span.run().out()).contains("span");
    assertThat(span.record().opened().simulated()).contains("2 % too much");
    for (int i = 0; i < ends.size(); i++) {
      assertThat(ends.get(i).record().opened().files().get(0).name())
          .isEqualTo("bench-" + (i + 1) + ".toml");
    }
  }

  private static String benchOf(ShortRun end) {
    return end.record().opened().files().get(0).text();
  }

  /** What the loop meter read at 20 mA: the errors of source and meter, no noise to speak of. */
  private static double loopMilliamps(ShortRun end) {
    return end.record()
        .events(Event.Checked.class)
        .filter(c -> c.check().equals("loop at 20 mA"))
        .mapToDouble(c -> c.values().get(CheckNames.FOUND_MILLIAMPS))
        .findFirst()
        .orElseThrow();
  }

  /** Serves some stations and runs against each of them at once. */
  private interface Way {
    List<ShortRun> runAll(double scale, Path own) throws Exception;
  }

  private List<ShortRun> undisturbed(double fastest, Way way) throws Exception {
    double scale = fastest;
    List<ShortRun> ends = way.runAll(scale, Files.createDirectory(folder.resolve("at-" + scale)));
    for (int i = 0; i < REPEATS && disturbed(ends); i++) {
      scale /= 2;
      ends = way.runAll(scale, Files.createDirectory(folder.resolve("at-" + scale)));
    }
    return ends;
  }

  /** By the machine, not by the stations: no answer is lost by intent but at the second one. */
  private static boolean disturbed(List<ShortRun> ends) {
    List<ShortRun> sound = new ArrayList<>(ends);
    sound.remove(1);
    return ends.stream().anyMatch(end -> end.code() == 3 && end.faults().contains("gap"))
        || sound.stream().anyMatch(end -> end.faults().contains("no reply"));
  }

  private List<ShortRun> threeOnSockets(double scale, Path own) throws Exception {
    Path faulty = Files.writeString(own.resolve("faulty.toml"), withItsType(SPAN) + LOST);
    List<Path> units = List.of(SOUND, faulty, SOUND);
    return runAll(scale, own, units, List.of("1", "4", "2"), List.of());
  }

  private List<ShortRun> twoOnSerialPorts(double scale, Path own) throws Exception {
    Path played = Files.writeString(own.resolve("played.toml"), SerialBench.text());
    String ports = "rs485=" + folder.resolve("far") + "," + folder.resolve("near");
    List<String> more = List.of("--bench", played.toString(), "--serial", ports);
    return runAll(scale, own, List.of(SOUND, SPAN), List.of("1", "4"), more);
  }

  private static List<ShortRun> runAll(
      double scale, Path own, List<Path> units, List<String> seeds, List<String> more)
      throws Exception {
    List<String> simulate = new ArrayList<>(List.of("simulate"));
    units.forEach(unit -> simulate.add(unit.toString()));
    simulate.addAll(List.of("--time-scale", String.valueOf(scale)));
    simulate.addAll(List.of("--bench-file", own.resolve("bench.toml").toString()));
    simulate.addAll(List.of("--json", "--until-input-ends"));
    simulate.addAll(more);
    Process simulator =
        Invocation.again(simulate).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    try (BufferedReader told = simulator.inputReader(StandardCharsets.UTF_8)) {
      JsonNode stations = new ObjectMapper().readTree(told.readLine()).get("stations");
      assertThat(stations.findValuesAsText("seed")).isEqualTo(seeds);
      List<ShortRun> ends = sideBySide(stations, own);
      simulator.getOutputStream().close();
      assertThat(simulator.waitFor(30, TimeUnit.SECONDS)).isTrue();
      assertThat(simulator.exitValue()).isZero();
      return ends;
    } finally {
      simulator.destroy();
    }
  }

  /** The unit type file is named from where the simulation file was. */
  private static String withItsType(Path simulation) throws IOException {
    String text = Files.readString(simulation);
    String whole = ShortRun.TYPE.toAbsolutePath().toString().replace('\\', '/');
    String moved = text.replace("../" + ShortRun.TYPE.toString().replace('\\', '/'), whole);
    assertThat(moved).isNotEqualTo(text);
    return moved;
  }

  private static List<ShortRun> sideBySide(JsonNode stations, Path own) throws Exception {
    ExecutorService runs = Executors.newFixedThreadPool(stations.size());
    try {
      List<Future<ShortRun>> begun = new ArrayList<>();
      for (JsonNode station : stations) {
        Path bench = Path.of(station.get("bench_file").asText());
        Path files = Files.createDirectory(own.resolve("run-" + begun.size()));
        begun.add(runs.submit(() -> ShortRun.of(bench, BRIEF, LIMITS, files)));
      }
      List<ShortRun> ends = new ArrayList<>();
      for (Future<ShortRun> each : begun) {
        ends.add(each.get());
      }
      return ends;
    } finally {
      runs.shutdownNow();
    }
  }
}
