package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** What the rest rule saves against waiting a fixed time at each point, and what that costs. */
class RestSavingTest {
  private static final String TRAVEL =
      """
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      """;

  /** A usual dwell where no rule is at hand, 30 s (common practice, no source). */
  private static final String DWELL =
      "\n[practice]\nrest_window_s = 30\nrest_timeout_s = 60\nrest_band_pct = 1\n";

  @Test
  void thePointsTakeLessThanHalfTheTimeOfAFixedDwellAtNoLargerUncertainty() {
    JudgedRun byRule = VirtualBench.with("healthy-b").tests(TRAVEL).judge();
    JudgedRun byDwell =
        VirtualBench.with("healthy-b").tests(TRAVEL).unitType(text -> text + DWELL).judge();

    double ratio = seconds(byDwell) / seconds(byRule);
    assertThat(ratio).isGreaterThan(2.5);
    assertThat(largestHalf(byRule)).isLessThanOrEqualTo(1.05 * largestHalf(byDwell));
  }

  /** The unit's own motion at nominal speed and the windows that the rule asks for. */
  @Test
  void aRunTakesHardlyLongerThanTheUnitNeeds() {
    VirtualBench bench = VirtualBench.with("healthy-b");
    bench.run();
    assertThat(bench.result().testSeconds() / bench.result().nominalSeconds())
        .isLessThanOrEqualTo(1.10);
  }

  private static double seconds(JudgedRun run) {
    List<Entry> entries = run.record().entries();
    long began = 0;
    long ended = 0;
    for (Entry entry : entries) {
      if (entry.event() instanceof Event.TestBegan) {
        began = entry.nanos();
      } else if (entry.event() instanceof Event.TestEnded) {
        ended = entry.nanos();
      }
    }
    return (ended - began) / 1e9;
  }

  private static double largestHalf(JudgedRun run) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.TRAVEL_ERROR)
        .mapToDouble(m -> m.budget().orElseThrow().expand().half())
        .max()
        .orElseThrow();
  }
}
