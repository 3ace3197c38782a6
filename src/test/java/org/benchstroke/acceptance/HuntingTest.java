package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.benchstroke.core.model.ControlParameters;
import org.benchstroke.core.model.MotorParameters;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * A weak brake and a narrow dead band. What must be seen was computed beforehand by a simulation
 * outside this project (own simulation, no outside source).
 */
class HuntingTest {
  private static final String HOLD =
      """
      [[test]]
      test = "hunting"
      points_pct = [50]
      hold_s = 60
      """;

  /**
   * h_off 0.1 %, τ_b 100 ms, a_c 20 °/s². From a start threshold of 0.38 % to 0.45 % noise and the
   * setpoint decide whether it hunts; the simulation outside put the border between 0.4 and 0.5 %.
   */
  static Simulation unit(double startPercent) {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    ControlParameters c = healthy.parameters().control();
    MotorParameters m = healthy.parameters().motor();
    return healthy.withUnit(
        healthy
            .parameters()
            .with(c.withThresholds(startPercent, 0.1))
            .with(m.withBrake(0.1, 20.0)));
  }

  private static VirtualBench bench(double startPercent, int sampleMillis) {
    return VirtualBench.with(unit(startPercent))
        .tests(HOLD)
        .benchText(
            text ->
                text.replaceFirst("sample_period_ms = \\d+", "sample_period_ms = " + sampleMillis));
  }

  @Test
  void aLimitCycleIsMeasuredAndFails() {
    JudgedRun run = bench(0.36, 50).judge();
    AsOrdered hunting = order(run);
    assertThat(hunting.word()).as(hunting.found()).isEqualTo(Word.FAIL);
    assertThat(hunting.found()).startsWith("limit cycle of ");
    assertThat(value(run, MeasureKind.HUNTING_PEAK_TO_PEAK)).isCloseTo(0.9, within(0.25));
    assertThat(value(run, MeasureKind.HUNTING_REVERSALS)).isCloseTo(2.0 * 60.0 / 0.9, within(25.0));
    assertThat(value(run, MeasureKind.STARTS)).isCloseTo(7700.0, within(1500.0));
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences())
        .anySatisfy(
            finding ->
                assertThat(finding)
                    .startsWith("Hunting at 50 %: limit cycle of ")
                    .contains("the dead band is too small")
                    .endsWith("a battery source on the input tells them apart."));
  }

  /** Nearly in step with the controller it looks like hunting, else it has no steady period. */
  @Test
  void humIsNotTakenForADeadBandThatIsTooSmall() {
    JudgedRun run = VirtualBench.with("hum-on-the-signal").tests(HOLD).judge();
    assertThat(order(run).word()).isEqualTo(Word.FAIL);
    assertThat(run.sentences())
        .anyMatch(f -> f.contains("hum from the wiring") || f.contains("noise on the signal"));
  }

  @Test
  void theStartsLimitEndsTheHold() {
    JudgedRun run =
        bench(0.36, 50).unitType(text -> DutyTest.duty(text, "starts_per_hour = 1200\n")).judge();
    Event.Watched hold = run.record().events(Event.Watched.class).findFirst().orElseThrow();
    assertThat(hold.whole()).isFalse();
    assertThat(hold.reason()).startsWith("stopped by the starts limit");
    assertThat(order(run).word()).isEqualTo(Word.FAIL);
    assertThat(order(run).found()).contains("starts limit").contains("limit cycle");
  }

  @Test
  void aWiderDeadBandIsQuiet() {
    JudgedRun run = bench(0.5, 50).judge();
    assertThat(order(run).found()).matches("no cycle of \\S+ % or more in 60 s, .*");
    assertThat(order(run).word()).isEqualTo(Word.PASS);
  }

  /** Polled at the period of the cycle it shows no reversal, and must not be called stable. */
  @Test
  void coarseSamplingIsNeverCalledStable() {
    for (double start : new double[] {0.36, 0.5}) {
      JudgedRun run = bench(start, 900).judge();
      assertThat(order(run).word()).as(order(run).found()).isNotEqualTo(Word.PASS);
      assertThat(run.passed()).isFalse();
    }
    assertThat(order(bench(0.5, 900).judge()).found()).startsWith("sampling insufficient");
  }

  /**
   * At a start threshold of 0.40 % it depends on the setpoint whether the unit hunts: it covers
   * 0.13 % in one period of its controller, so where it stops depends on when the controller looks.
   * Each point is approached from afar: a step within the dead band would move nothing. Where it
   * does hunt, the cycle is the one expected, and the starts limit ends it.
   */
  @Test
  void nearTheBorderSomeSetpointsHunt() {
    JudgedRun run =
        VirtualBench.with(unit(0.40))
            .tests(
                """
                [[test]]
                test = "hunting"
                points_pct = [49.9, 39.91, 49.92, 39.93, 49.94, 39.95, 49.96, 39.97, 49.98, 39.99, 50,
                  40.01, 50.02, 40.03, 50.04, 40.05, 50.06, 40.07, 50.08, 40.09, 50.1]
                hold_s = 20
                """)
            .benchText(t -> t.replaceFirst("sample_period_ms = \\d+", "sample_period_ms = 50"))
            .unitType(text -> DutyTest.duty(text, "starts_per_hour = 4000\n"))
            .judge();
    List<AsOrdered> hunts =
        run.orders().stream()
            .filter(o -> o.found().contains("starts limit"))
            .filter(o -> o.found().contains("limit cycle"))
            .toList();
    assertThat(hunts).as(run.orders().toString()).isNotEmpty();
    assertThat(hunts).allMatch(o -> o.word() == Word.FAIL);
    for (AsOrdered hunt : hunts) {
      String place = hunt.which();
      assertThat(value(run, MeasureKind.HUNTING_PEAK_TO_PEAK, place)).isCloseTo(0.9, within(0.25));
      assertThat(value(run, MeasureKind.STARTS, place)).isCloseTo(7700.0, within(1500.0));
    }
  }

  private static AsOrdered order(JudgedRun run) {
    return run.orders().stream()
        .filter(o -> o.what().equals("hunting at 50 %"))
        .findFirst()
        .orElseThrow();
  }

  private static double value(JudgedRun run, MeasureKind kind) {
    return value(run, kind, "50 %");
  }

  private static double value(JudgedRun run, MeasureKind kind, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .map(Measure::value)
        .findFirst()
        .orElseThrow()
        .orElseThrow();
  }

  /** A meter at its end reads a constant, whatever the unit does beyond. */
  @Test
  void aPeggedPositionIsNeverCalledStable() {
    RunRecord whole = bench(0.5, 50).run();
    Event.Watched hold = whole.events(Event.Watched.class).findFirst().orElseThrow();
    List<Entry> pegged =
        whole.entries().stream()
            .map(e -> e.event() instanceof Event.Sampled s ? pegged(e, s, hold) : e)
            .toList();
    JudgedRun run = VirtualBench.judge(new RunRecord(pegged, List.of()));
    assertThat(order(run).word()).isEqualTo(Word.NO_RESULT);
    assertThat(order(run).found()).contains("saturated");
    assertThat(run.passed()).isFalse();
  }

  private static Entry pegged(Entry entry, Event.Sampled s, Event.Watched hold) {
    boolean during = s.askedNanos() > hold.fromNanos() && s.answeredNanos() < hold.toNanos();
    return !during || !s.channel().equals("position")
        ? entry
        : new Entry(
            entry.number(),
            entry.nanos(),
            entry.utc(),
            new Event.Sampled(
                s.channel(),
                s.value(),
                s.unit(),
                "saturated",
                s.raw(),
                s.askedNanos(),
                s.answeredNanos()));
  }
}
