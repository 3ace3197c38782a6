package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.acceptance.Scripted;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The real {@code run} command over a serial line on which a simulation file scripts faults. */
@Timeout(300)
class SerialFaultTest {
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
    ShortRun end = run(faults);
    assertThat(end.code()).as(end.run().out()).isZero();
    assertThat(end.run().out()).contains("Safe signal: ");
    assertThat(
            end.record()
                .events(Event.Sampled.class)
                .map(Event.Sampled::raw)
                .filter(raw -> raw.contains("asked again after bad CRC")))
        .isNotEmpty();
    assertThat(end.record().events(Event.Faulted.class))
        .anyMatch(f -> f.fault() == RunFault.NO_REPLY && f.instrument().equals("input module"));
    assertThat(end.outcomes()).contains("void").endsWith("complete");
  }

  @Test
  void checkValuesThatStayBadEndTheRunSafeAndWithoutAVerdict() throws Exception {
    ShortRun end =
        run(Scripted.fault("input module", "bad CRC", "exchange = 400\nexchanges = 1000000"));
    assertThat(end.code()).as(end.run().out()).isEqualTo(3);
    assertThat(end.run().out()).contains("bad CRC").contains("Safe signal: ");
    assertThat(end.record().closed().orElseThrow().how()).isEqualTo("fault");
    assertThat(end.record().events(Event.Faulted.class))
        .anyMatch(f -> f.fault() == RunFault.BAD_REPLY && f.detail().contains("bad CRC"));
    // The source's exchanges are sound.
    List<Event.MadeSafe> safe = end.madeSafe();
    assertThat(safe.get(safe.size() - 1).detail()).contains("reads back 4.000 mA");
  }

  private ShortRun run(String faults) throws Exception {
    Path own = Files.createTempDirectory(folder, "run");
    Simulation unit = VirtualBench.simulation("healthy-b", faults);
    String limits = "travel_error_pct = 1.0\n" + ShortRun.PATIENT;
    LeapingClock clock = new LeapingClock();
    return SerialBench.serve(
        unit, clock, own, (bench, cable) -> ShortRun.of(clock, bench, TESTS, limits, own));
  }
}
