package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.benchstroke.core.analysis.MotionMeter;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Progress;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.unit.MeasureKind;
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
            .unitType(text -> duty(text, "on_ratio_pct = 25\n"))
            .tests(STROKES)
            .run();

    assertThat(record.closed().orElseThrow().how()).isEqualTo("complete");
    // The last stroke has no rest after it any more: it may lie above by its own share.
    assertThat(onRatio(record)).isBetween(0.20, 0.28);
    assertThat(onRatio(VirtualBench.with("healthy-b").tests(STROKES).run())).isGreaterThan(0.7);
  }

  /** The unit type with other duties; none at all with no keys. */
  static String duty(String unitType, String keys) {
    String without = unitType.replaceFirst("(?s)\\[duty].*?\n\n", "");
    assertThat(without).isNotEqualTo(unitType).doesNotContain("[duty]");
    return keys.isEmpty() ? without : without + "\n[duty]\n" + keys;
  }

  /**
   * A unit of which nothing is stated, and that hunts some 7700 times an hour wherever it is: it is
   * not driven for as long as the procedure would take.
   */
  @Test
  void aUnitThatHuntsIsStoppedThoughItsTypeStatesNoDuty() {
    VirtualBench bench =
        VirtualBench.with(HuntingTest.unit(0.3))
            .tests(
                """
                [[test]]
                test = "travel error"
                points_pct = [10, 20, 30, 40, 50, 60, 70, 80, 90]
                cycles = 3
                """)
            .unitType(text -> duty(text, ""));
    RunRecord record = bench.run();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason())
        .contains("stopped by the starts limit: ")
        .contains("1200 an hour are allowed where the unit type states none under [duty]")
        .contains("starts by itself where it is held");
    assertThat(bench.result().safe().confirmed()).isTrue();
    // 200 starts are those of ten minutes; the unit makes two a second.
    assertThat(seconds(record)).isLessThan(240.0);
    assertThat(VirtualBench.judge(record).passed()).isFalse();
  }

  /** The motor of a type that states nothing runs a quarter of an hour in one, not longer. */
  @Test
  void restIsKeptThoughTheTypeStatesNone() {
    String strokes = "[[test]]\ntest = \"endurance\"\ncycles = 30\n";
    RunRecord record =
        VirtualBench.with("healthy-b").tests(strokes).unitType(text -> duty(text, "")).run();
    assertThat(record.closed().orElseThrow().how()).isEqualTo("complete");
    assertThat(onRatio(record)).isLessThan(0.30);
    assertThat(seconds(record)).isGreaterThan(3600.0);
  }

  /** Starts that a procedure asks for are spread over the time that they need. */
  @Test
  void movesAreSpreadWhereFewStartsAreAllowed() {
    RunRecord record =
        VirtualBench.with("healthy-b")
            .tests(STROKES)
            .unitType(text -> duty(text, "starts_per_hour = 36\n"))
            .run();
    assertThat(record.closed().orElseThrow().how()).isEqualTo("complete");
    // Six in ten minutes: the ten strokes take more than one of them.
    assertThat(seconds(record)).isGreaterThan(600.0);
    assertThat(seconds(VirtualBench.with("healthy-b").tests(STROKES).run())).isLessThan(400.0);
  }

  private static double seconds(RunRecord record) {
    return record.entries().get(record.entries().size() - 1).nanos() / 1e9;
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
            .unitType(text -> duty(text, "on_ratio_pct = 25\n"));
    RunRecord record = bench.run();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).containsAnyOf("does not stand still", "starts by itself");
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
