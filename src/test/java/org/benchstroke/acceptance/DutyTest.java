package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.benchstroke.analysis.MotionMeter;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.RunEnded;
import org.junit.jupiter.api.Test;

/** The runner keeps to what the unit type says of its motor. */
class DutyTest {
  private static final String STROKES =
      """
      [[test]]
      test = "exercise"
      strokes = 2

      [[test]]
      test = "stroke time"
      repeats = 3
      """;

  /** 25 % on time needs 3 s of rest for each second of run (common practice, no source). */
  @Test
  void restIsKeptBetweenStrokes() {
    RunRecord record =
        VirtualBench.with("healthy-b")
            .unitType(text -> text + "\n[duty]\non_ratio_pct = 25\n")
            .tests(STROKES)
            .run();

    assertThat(record.closed().orElseThrow().how()).isEqualTo("complete");
    // The last stroke has no rest after it any more: it may lie above by its own share.
    assertThat(onRatio(record)).isBetween(0.20, 0.28);
    assertThat(onRatio(VirtualBench.with("healthy-b").tests(STROKES).run())).isGreaterThan(0.7);
  }

  /** A unit that hunts never cools: the run does not wait for that, and leaves it safe. */
  @Test
  void aUnitThatNeverStandsStillIsNotWaitedForForEver() {
    VirtualBench bench =
        VirtualBench.with(HuntingTest.unit(0.3))
            .tests(
                """
                [[test]]
                test = "hunting"
                points_pct = [50, 60]
                hold_s = 60
                """)
            .unitType(text -> text + "\n[duty]\non_ratio_pct = 25\n");
    RunRecord record = bench.run();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).contains("does not stand still");
    assertThat(bench.result().safe().confirmed()).isTrue();
    assertThat(record.closed()).isPresent();
  }

  private static double onRatio(RunRecord record) {
    MotionMeter meter = new MotionMeter(0.2, 0.25);
    List<Event.Sampled> positions =
        record.events(Event.Sampled.class).filter(s -> s.channel().equals("position")).toList();
    for (Event.Sampled s : positions) {
      meter.add(s.askedNanos() / 1e9, s.value());
    }
    return meter.onRatio();
  }
}
