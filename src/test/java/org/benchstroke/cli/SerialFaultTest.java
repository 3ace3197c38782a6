package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.acceptance.Scripted;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real {@code run} command over a serial line on which a simulation file scripts faults. A gap
 * on a busy machine excuses a repeat at half the speed, and nothing else does.
 */
@Timeout(300)
class SerialFaultTest {
  private static final double SCALE = 8;
  private static final int REPEATS = 3;

  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  @TempDir Path folder;

  /** The preflight asks the input module some dozens of times, the tests a thousand. */
  @Test
  void aBadCheckValueIsAskedAgainAndALostAnswerVoidsItsTest() throws Exception {
    String faults =
        Scripted.fault("input module", "bad CRC", "exchange = 400")
            + Scripted.fault("input module", "drop", "exchange = 500");
    ShortRun end = run(faults, SCALE);
    double scale = SCALE;
    for (int i = 0; i < REPEATS && end.code() == 3; i++) {
      assertThat(end.run().out()).as("only a gap excuses a repeat").contains("gap");
      scale /= 2;
      end = run(faults, scale);
    }
    assertThat(end.code()).as(end.run().out()).isZero();
    assertThat(end.run().out()).contains("Safe signal: ");
    assertThat(
            end.record()
                .events(Event.Sampled.class)
                .map(Event.Sampled::raw)
                .filter(raw -> raw.contains("asked again after bad CRC")))
        .isNotEmpty();
    assertThat(end.record().events(Event.Faulted.class))
        .anyMatch(f -> f.fault().equals("no reply") && f.instrument().equals("input module"));
    // A busy machine may make the other test void, too, before it is whole.
    assertThat(end.outcomes()).contains("void").endsWith("complete");
  }

  @Test
  void checkValuesThatStayBadEndTheRunSafeAndWithoutAVerdict() throws Exception {
    ShortRun end =
        run(
            Scripted.fault("input module", "bad CRC", "exchange = 400\nexchanges = 1000000"),
            SCALE);
    assertThat(end.code()).as(end.run().out()).isEqualTo(3);
    assertThat(end.run().out()).contains("bad CRC").contains("Safe signal: ");
    assertThat(end.record().closed().orElseThrow().how()).isEqualTo("fault");
    assertThat(end.record().events(Event.Faulted.class))
        .anyMatch(f -> f.fault().equals("bad reply") && f.detail().contains("bad CRC"));
    // The source's exchanges are sound.
    List<Event.MadeSafe> safe = end.madeSafe();
    assertThat(safe.get(safe.size() - 1).detail()).contains("reads back 4.000 mA");
  }

  private ShortRun run(String faults, double scale) throws Exception {
    Path own = Files.createTempDirectory(folder, "run");
    Simulation unit = VirtualBench.simulation("healthy-b", faults);
    String limits = "travel_error_pct = 1.0\n" + ShortRun.PATIENT;
    return SerialBench.serve(
        unit, scale, own, (bench, cable) -> ShortRun.of(bench, TESTS, limits, own));
  }
}
