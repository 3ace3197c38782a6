package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real {@code run} command over a serial line: a simulator behind a pair of pseudo-terminals
 * that takes its time as a wire of 115200 baud does.
 */
class SerialRunTest {
  private static final String PROCEDURE =
      """
      kind = "procedure"
      format = 1
      name = "Short"
      version = "1"
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      """;

  private static final String LIMITS =
      """
      [limits]
      travel_error_pct = 1.0
      hysteresis_plus_dead_band_pct = 0.8
      linearity_independent_pct = 1.0
      stroke_time_opening_s = { min = 13.5, max = 16.5 }
      stroke_time_closing_s = { min = 13.5, max = 16.5 }
      """;

  @TempDir Path folder;

  @Test
  void aHealthyUnitPassesAtTheSpeedOfTheLine() throws Exception {
    Command run = run();
    assertThat(run.code()).as(run.out() + run.err()).isZero();
    assertThat(run.out()).contains("PASSED", "Safe signal: ");
  }

  @Test
  void whatIsNoLineIsNamed() throws Exception {
    for (String wrong : List.of("rs485", "=far", "rs485=", "rs486=far,near")) {
      Command refused = simulate("--serial", wrong);
      assertThat(refused.code()).as(wrong).isEqualTo(2);
      assertThat(refused.err())
          .startsWith("--serial: ")
          .contains(wrong.startsWith("=") ? "=far" : "rs48");
    }
    Command twice = simulate("--serial", "rs485=far,near", "--serial", "rs485=other");
    assertThat(twice.err()).contains("names a line a second time");
    Command nowhere = simulate("--serial", "rs485=" + folder.resolve("nowhere"));
    assertThat(nowhere.err()).startsWith("--serial: ").contains("nowhere");
    assertThat(simulate("--turn-round-ms", "-1").err()).contains("allowed is 0 to 1000");
  }

  private Command simulate(String... more) throws IOException {
    Path bench = Files.writeString(folder.resolve("bench.toml"), SerialBench.text());
    List<Object> all =
        new ArrayList<>(List.of("simulate", "simulators/healthy-b.toml", "--bench", bench));
    all.addAll(List.of("--bench-file", folder.resolve("written.toml")));
    all.addAll(List.of(more));
    return Command.run(all.toArray());
  }

  private Command run() throws Exception {
    Simulation simulation = VirtualBench.simulation("healthy-b");
    LeapingClock clock = new LeapingClock();
    return SerialBench.serve(
        simulation,
        clock,
        folder,
        (bench, cable) -> {
          Path written = Files.writeString(folder.resolve("written.toml"), ShortRun.patient(bench));
          assertThat(written).content().contains("near").contains("speed = 115200");
          String type = Files.readString(ShortRun.TYPE).replaceAll("(?s)\\[limits].*", "");
          return Command.run(
              clock,
              Command.runArguments(
                  written,
                  Files.writeString(folder.resolve("type.toml"), type + LIMITS),
                  Files.writeString(folder.resolve("procedure.toml"), PROCEDURE),
                  folder.resolve("records")));
        });
  }
}
