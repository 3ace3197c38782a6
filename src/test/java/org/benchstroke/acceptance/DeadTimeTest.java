package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.SimulationReader;
import org.junit.jupiter.api.Test;

/**
 * A fast unit that starts late: what it needs for a step is less than a window of rest, and before
 * its dead time is over it stands still, too.
 */
class DeadTimeTest {
  @Test
  void aUnitThatStartsLateIsWaitedFor() throws IOException, FileMistakes {
    Path file = VirtualBench.SIMULATORS.resolve("healthy-b.toml");
    String late =
        """

        [motor]
        stroke_90_deg_s = 3
        run_up_s = 0.02
        brake_s = 0.01
        coast_deg_per_s2 = 400

        [control]
        off_time_s = 5
        """;
    VirtualBench bench =
        VirtualBench.with(SimulationReader.read(file, Files.readString(file) + late))
            .unitType(
                text ->
                    text.replace("stroke_time_s = 15.0", "stroke_time_s = 3.0")
                        .replaceAll("(?s)\\[limits].*", "[limits]\ntravel_error_pct = 2.0\n"))
            .tests(
                """

                [[test]]
                test = "travel error"
                points_pct = [0, 10, 20, 30, 40]
                cycles = 1
                """);
    JudgedRun run = bench.judge();
    assertThat(run.orders().toString()).as(run.reason()).contains("times within ±5 %");
    assertThat(run.passed()).as(run.reason()).isTrue();
    assertThat(run.record().events(Event.Rested.class).filter(r -> r.label().startsWith("travel ")))
        .allMatch(Event.Rested::settled);
  }
}
