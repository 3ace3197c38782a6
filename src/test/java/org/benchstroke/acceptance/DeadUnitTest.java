package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.function.Predicate;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A sound unit whose motor dies in the middle of a run: no later test takes its rest for health.
 */
class DeadUnitTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final String BEFORE =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1

      """;

  /** Takes the motor's supply away when something happens within a test, and keeps it away. */
  private static final class Trip implements Spectator {
    private final VirtualBench bench;
    private final String test;
    private final Predicate<Event> when;
    private boolean within;
    private boolean tripped;

    Trip(VirtualBench bench, String test, Predicate<Event> when) {
      this.bench = bench;
      this.test = test;
      this.when = when;
    }

    @Override
    public void happened(Entry entry) {
      if (entry.event() instanceof Event.TestBegan began) {
        within = began.test().equals(test);
      }
      tripped |= within && when.test(entry.event());
      if (tripped) {
        bench.unit().motorSupply(false);
      }
    }

    @Override
    public void progressed(Progress progress) {
      // Only what happens matters.
    }
  }

  private static JudgedRun run(String test, String keys, Predicate<Event> when) {
    VirtualBench bench =
        VirtualBench.with("healthy-b", BENCH)
            .tests(BEFORE + "[[test]]\ntest = \"" + test + "\"\n" + keys.replace(';', '\n') + "\n")
            .unitType(
                t ->
                    t.replaceAll("(?s)\\[limits].*", "")
                        + """
                        [limits]
                        travel_error_pct = 1.0
                        hunting_peak_to_peak_pct = 1.0
                        ramp_lag_s = 2.0
                        stroke_time_drift_s = 2.0
                        power_loss_drift_pct = 0.5
                        switch_error_deg = 2.0
                        """
                            .replaceAll(unneeded(test), ""));
    bench.watchedBy(new Trip(bench, test, when));
    return bench.judge();
  }

  /** Limits of what the procedure doesn't measure would hinder a pass by themselves. */
  private static String unneeded(String test) {
    String key =
        switch (test) {
          case "hunting" -> "hunting_peak_to_peak_pct";
          case "ramp" -> "ramp_lag_s";
          case "endurance" -> "stroke_time_drift_s";
          case "power loss" -> "power_loss_drift_pct";
          case "switches" -> "switch_error_deg";
          default -> "none";
        };
    return "(?m)^(?!travel|\\[|" + key + ")\\w+ = .*\\n";
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "signal loss | at_pct = 50; ways = [\"low\"]",
        "hunting | points_pct = [25]; hold_s = 20",
        "ramp | from_pct = 20; to_pct = 80; stroke_times = 3",
        "endurance | cycles = 10",
        "power loss | at_pct = 50; away_s = 5; moments = [\"at rest\"]",
        "switches | creep_deg_per_s = 1; margin_deg = 3; beyond_pct = 1.0; cycles = 1",
        "step response | at_pct = 50; sizes_pct = [10]",
        "dead band | at_pct = [50]; step_pct = 0.2; most_pct = 3; cycles = 2",
        "supply | starts = 2",
        "partial stroke | from_pct = 0; to_pct = 15; cycles = 2"
      })
  void neverPasses(String test, String keys) {
    JudgedRun sound = run(test, keys, e -> false);
    assertThat(sound.passed()).as("%s without a trip: %s", test, sound.reason()).isTrue();
    JudgedRun dead = run(test, keys, e -> true);
    assertThat(dead.passed()).as("%s: %s %s", test, dead.reason(), dead.orders()).isFalse();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "endurance | cycles = 10 | 15",
        "hunting | points_pct = [25, 50, 75]; hold_s = 20 | 2",
        "power loss | at_pct = 50; away_s = 5; moments = [\"at rest\"] | 2"
      })
  void norWhenItDiesUnderWay(String test, String keys, int commands) {
    int[] seen = {0};
    JudgedRun dead = run(test, keys, e -> e instanceof Event.Commanded && ++seen[0] >= commands);
    assertThat(dead.passed()).as("%s: %s %s", test, dead.reason(), dead.orders()).isFalse();
  }
}
