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
import java.util.stream.Stream;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * One {@code simulate} as a program of its own that serves three stations, and a {@code run}
 * against each of them at the same time, over real sockets. A gap on a busy machine excuses a
 * repeat at half the speed, and nothing else does.
 */
@Timeout(300)
class SeveralStationsTest {
  private static final int REPEATS = 4;
  private static final Path SOUND = Path.of("simulators/healthy-b.toml");
  private static final Path SPAN = Path.of("simulators/span-error.toml");
  private static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");

  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  /** Limits for what is measured; a busy machine is not what is looked at. */
  private static final String LIMITS =
      "[limits]\ntravel_error_pct = 1.0\n[practice]\ngap_periods = 10\nattempts = 5\n";

  /** One answer of the position input is lost while the travel is measured. */
  private static final String LOST =
      """

      [[fault]]
      on = "position input"
      kind = "drop"
      exchange = 200
      """;

  @TempDir Path folder;

  /** How a run ended, and its record. */
  private record End(Command run, RunRecord record) {
    List<String> faults() {
      return record.events(Event.Faulted.class).map(Event.Faulted::fault).toList();
    }

    /** What the loop meter read at 20 mA: the errors of source and meter, no noise to speak of. */
    double loopMilliamps() {
      return record
          .events(Event.Checked.class)
          .filter(c -> c.check().equals("loop at 20 mA"))
          .mapToDouble(c -> c.values().get("foundMilliamps"))
          .findFirst()
          .orElseThrow();
    }
  }

  @Test
  void eachOfThreeStationsIsAUnitOfItsOwn() throws Exception {
    double scale = 20;
    List<End> ends = runAll(scale);
    for (int i = 0; i < REPEATS && disturbed(ends); i++) {
      scale /= 2;
      ends = runAll(scale);
    }
    End sound = ends.get(0);
    End span = ends.get(1);
    End other = ends.get(2);
    assertThat(sound.run().code()).as(sound.run().out()).isZero();
    assertThat(other.run().code()).as(other.run().out()).isZero();
    assertThat(span.run().code()).as(span.run().out()).isEqualTo(1);
    assertThat(span.run().out()).contains("span");
    for (int i = 0; i < ends.size(); i++) {
      assertThat(ends.get(i).record().opened().serial()).isEqualTo("T-" + (i + 1));
      assertThat(ends.get(i).record().opened().files().get(0).name())
          .isEqualTo("bench-" + (i + 1) + ".toml");
    }
    assertThat(sound.record().opened().simulated()).contains("nothing to find");
    assertThat(other.record().opened().simulated()).contains("nothing to find");
    assertThat(span.record().opened().simulated()).contains("2 % too much");
    // The link fault of the second file is at the second station alone.
    assertThat(span.faults()).contains("no reply");
    assertThat(sound.faults()).doesNotContain("no reply");
    assertThat(other.faults()).doesNotContain("no reply");
    // The same file twice, yet not the same instruments: 1.4 µA apart, each to within 0.2 µA.
    assertThat(Math.abs(sound.loopMilliamps() - other.loopMilliamps())).isGreaterThan(0.0008);
  }

  /** By the machine, not by the stations. */
  private static boolean disturbed(List<End> ends) {
    return ends.stream().anyMatch(end -> end.run().code() == 3 && end.faults().contains("gap"))
        || Stream.of(ends.get(0), ends.get(2)).anyMatch(end -> end.faults().contains("no reply"));
  }

  private List<End> runAll(double scale) throws Exception {
    Path own = Files.createDirectories(folder.resolve("at-" + scale));
    Path faulty = Files.writeString(own.resolve("faulty.toml"), withItsType(SPAN) + LOST);
    Path bench = own.resolve("bench.toml");
    Process simulator =
        Invocation.again(
                List.of(
                    "simulate",
                    SOUND.toString(),
                    faulty.toString(),
                    SOUND.toString(),
                    "--time-scale",
                    String.valueOf(scale),
                    "--bench-file",
                    bench.toString(),
                    "--json",
                    "--until-input-ends"))
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    try (BufferedReader told = simulator.inputReader(StandardCharsets.UTF_8)) {
      JsonNode stations = new ObjectMapper().readTree(told.readLine()).get("stations");
      assertThat(stations).hasSize(3);
      assertThat(stations.findValuesAsText("seed")).containsExactly("1", "4", "2");
      List<End> ends = sideBySide(stations, own);
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
    String whole = TYPE.toAbsolutePath().toString().replace('\\', '/');
    String moved = text.replace("../" + TYPE.toString().replace('\\', '/'), whole);
    assertThat(moved).isNotEqualTo(text);
    return moved;
  }

  private static List<End> sideBySide(JsonNode stations, Path own) throws Exception {
    Files.writeString(own.resolve("brief.toml"), BRIEF);
    String type = Files.readString(TYPE).replaceAll("(?s)\\[limits].*", "") + LIMITS;
    Files.writeString(own.resolve("type.toml"), type);
    ExecutorService runs = Executors.newFixedThreadPool(stations.size());
    try {
      List<Future<End>> begun = new ArrayList<>();
      for (JsonNode station : stations) {
        String serial = "T-" + (begun.size() + 1);
        begun.add(runs.submit(() -> run(station, serial, own)));
      }
      List<End> ends = new ArrayList<>();
      for (Future<End> each : begun) {
        ends.add(each.get());
      }
      return ends;
    } finally {
      runs.shutdownNow();
    }
  }

  private static End run(JsonNode station, String serial, Path own) throws Exception {
    Path records = own.resolve(serial);
    Command run =
        Command.run(
            "run",
            "--unattended",
            "--bench",
            station.get("benchFile").asText(),
            "--unit-type",
            own.resolve("type.toml"),
            "--procedure",
            own.resolve("brief.toml"),
            "--serial",
            serial,
            "--operator",
            "Ann",
            "--order",
            "none",
            "--records",
            records);
    try (Stream<Path> files = Files.list(records)) {
      Path record = files.filter(f -> f.toString().endsWith(".jsonl")).findFirst().orElseThrow();
      return new End(run, RecordReader.read(record));
    }
  }
}
