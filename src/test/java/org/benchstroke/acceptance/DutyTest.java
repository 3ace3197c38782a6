package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.benchstroke.analysis.MotionMeter;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Progress;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.verdict.AsOrdered;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;
import org.benchstroke.verdict.Measure;
import org.benchstroke.verdict.Word;
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

  private static final String DUTY =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "duty"
      from_pct = 40
      to_pct = 60
      starts_per_hour = 240
      minutes = 5
      """;

  private static JudgedRun duty(String simulation) {
    return VirtualBench.with(simulation)
        .tests(DUTY)
        .unitType(
            t ->
                t.replaceAll("(?s)\\[limits].*", "")
                    + """
                      [limits]
                      duty_starts_per_hour = { min = 200, max = 280 }
                      duty_on_ratio_pct = 30
                      """)
        .judge();
  }

  private static Measure measure(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .findFirst()
        .orElseThrow();
  }

  /** 20 % of travel at 6.67 %/s are 3 s of every 15: an on-ratio of a fifth. */
  @Test
  void theDutyIsMeasured() {
    JudgedRun run = duty("healthy-b");
    assertThat(measure(run, MeasureKind.DUTY_STARTS).value().orElseThrow())
        .isCloseTo(240.0, within(15.0));
    assertThat(measure(run, MeasureKind.DUTY_ON_RATIO).value().orElseThrow())
        .isCloseTo(20.0, within(2.0));
    assertThat(run.orders())
        .filteredOn(o -> o.isOf(AsOrdered.Subject.DUTY))
        .extracting(AsOrdered::found)
        .containsExactly("all 20 came to rest in time");
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @Test
  void aUnitThatTripsOnItsDutyFails() {
    VirtualBench bench = VirtualBench.with("healthy-b").tests(DUTY);
    int[] moves = {0};
    bench.watchedBy(
        new Spectator() {
          @Override
          public void happened(Entry entry) {
            moves[0] += entry.event() instanceof Event.Commanded ? 1 : 0;
            if (moves[0] > 10) {
              bench.unit().motorSupply(false);
            }
          }

          @Override
          public void progressed(Progress progress) {
            // Only what happens matters.
          }
        });
    JudgedRun run = bench.judge();
    assertThat(run.passed()).isFalse();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.FAIL);
  }
}
