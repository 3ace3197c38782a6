package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** Partial strokes off both ends, of a sound unit and of such as fail it. */
class PartialStrokeTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");

  /** No angle reference, no supply meter. */
  private static final Path PLAIN = Path.of("demo-data/benches/two-wire-feedback.toml");

  private static final String EXERCISE =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      """;
  private static final String CLOSED =
      """
      [[test]]
      test = "partial stroke"
      from_pct = 0
      to_pct = 15
      cycles = 2

      """;
  private static final String OPEN =
      """
      [[test]]
      test = "partial stroke"
      from_pct = 100
      to_pct = 85
      cycles = 1
      """;

  /** Agreed for this invented unit: 15 % at 6.67 %/s are 2.25 s, and some tenths to start. */
  private static String limits(String unitType) {
    return unitType.replaceAll("(?s)\\[limits].*", "")
        + """
        [limits]
        breakaway_time_s = 0.5
        partial_stroke_travel_pct = { min = 13.5, max = 16.5 }
        steady_state_error_pct = 1.5
        partial_stroke_time_s = 3.5
        partial_stroke_return_time_s = 3.5
        """;
  }

  private static VirtualBench bench(Simulation unit, Path file, String tests) {
    return VirtualBench.with(unit, file).tests(tests).unitType(PartialStrokeTest::limits);
  }

  private static JudgedRun judge(Simulation unit, String tests) {
    return bench(unit, BENCH, tests).judge();
  }

  private static Simulation healthy(String tables) {
    return VirtualBench.simulation("healthy-b", tables);
  }

  /** By the procedure of the demo data. */
  @Test
  void aSoundUnitGoesThereAndBackOffBothEnds() throws Exception {
    String text = Files.readString(Path.of("demo-data/procedures/partial-stroke.toml"));
    JudgedRun run = judge(healthy(""), text.substring(text.indexOf("[[test]]")));

    for (String place :
        List.of("0 to 15 %, cycle 1", "0 to 15 %, cycle 3", "100 to 85 %, cycle 2")) {
      assertThat(value(run, MeasureKind.PARTIAL_STROKE_TRAVEL, place, Truth.FEEDBACK))
          .isCloseTo(15.0, within(0.4));
      assertThat(value(run, MeasureKind.PARTIAL_STROKE_TRAVEL, place, Truth.STEM))
          .isCloseTo(15.0, within(0.4));
      assertThat(value(run, MeasureKind.STEADY_STATE_ERROR, place, Truth.FEEDBACK))
          .isCloseTo(0.0, within(0.3));
      // 14.5 % at 6.67 %/s, up to the band of 0.5 %: 2.2 s (arithmetic), and some time to start.
      assertThat(value(run, MeasureKind.PARTIAL_STROKE_TIME, place, Truth.CLOCK))
          .isBetween(2.2, 2.7);
      assertThat(value(run, MeasureKind.BREAKAWAY_TIME, place, Truth.CLOCK)).isBetween(0.0, 0.3);
      assertThat(value(run, MeasureKind.BREAKAWAY_TIME, place, Truth.STEM)).isBetween(0.0, 0.3);
    }
    assertThat(
            value(run, MeasureKind.PARTIAL_STROKE_RETURN_TIME, "15 to 0 %, cycle 2", Truth.CLOCK))
        .isBetween(2.2, 2.7);
    assertThat(words(run)).hasSize(5).containsOnly(Word.PASS);
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  /** The seat holds the stem by 3 % of twist: at 6.67 %/s that is 0.45 s more (arithmetic). */
  @Test
  void aStemThatSticksAtItsSeatBreaksAwayLate() {
    JudgedRun run = judge(VirtualBench.simulation("sticky-seat"), EXERCISE + CLOSED + OPEN);

    String seat = "0 to 15 %, cycle 1";
    double feedback = value(run, MeasureKind.BREAKAWAY_TIME, seat, Truth.CLOCK);
    double stem = value(run, MeasureKind.BREAKAWAY_TIME, seat, Truth.STEM);
    assertThat(feedback).isLessThan(0.3);
    assertThat(stem).isGreaterThan(feedback + 0.4);
    assertThat(value(run, MeasureKind.BREAKAWAY_TIME, "100 to 85 %, cycle 1", Truth.STEM))
        .isLessThan(0.3);
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.reason()).contains("breakaway time of the stem");
  }

  /** The end switch for open stands at 9°, which is 10 % of 90°. */
  @Test
  void aUnitThatStopsShortFails() {
    JudgedRun run = judge(healthy("\n[switches]\nopen_deg = 9.0\n"), CLOSED);

    assertThat(value(run, MeasureKind.PARTIAL_STROKE_TRAVEL, "0 to 15 %, cycle 1", Truth.FEEDBACK))
        .isCloseTo(10.0, within(0.5));
    assertThat(value(run, MeasureKind.STEADY_STATE_ERROR, "0 to 15 %, cycle 1", Truth.FEEDBACK))
        .isCloseTo(-5.0, within(0.5));
    assertThat(words(run)).containsOnly(Word.FAIL);
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
  }

  /** More play between shaft and stem than the part is long. */
  @Test
  void aStemThatStaysFailsWhateverTheFeedbackShows() {
    JudgedRun run = judge(healthy("\n[mechanics]\ncoupling_play_pct = 20\n"), EXERCISE + CLOSED);

    String place = "0 to 15 %, cycle 2";
    assertThat(value(run, MeasureKind.PARTIAL_STROKE_TRAVEL, place, Truth.FEEDBACK))
        .isCloseTo(15.0, within(0.4));
    assertThat(value(run, MeasureKind.PARTIAL_STROKE_TRAVEL, place, Truth.STEM))
        .isCloseTo(0.0, within(0.2));
    Measure stem = measure(run, MeasureKind.BREAKAWAY_TIME, place, Truth.STEM);
    assertThat(stem.value()).isEmpty();
    assertThat(stem.note()).isEqualTo("it did not move");
    assertThat(words(run)).containsOnly(Word.FAIL);
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
  }

  /**
   * 3 Ω of leads at 0.8 A more than at rest: 2.4 V of 23.7 V (Ohm's law), a little more of load.
   */
  @Test
  void theSupplySagsOnlyWhereItIsRead() {
    Simulation healthy = healthy("");
    ModelParameters parameters = healthy.parameters();
    Simulation leads = healthy.withUnit(parameters.with(parameters.supply().withLeads(3.0)));

    JudgedRun read = judge(leads, EXERCISE + CLOSED);
    assertThat(value(read, MeasureKind.SUPPLY_SAG, "0 to 15 %", Truth.METER)).isGreaterThan(9.5);
    assertThat(bench(leads, PLAIN, EXERCISE + CLOSED).judge().judgements())
        .extracting(j -> j.measure().kind())
        .contains(MeasureKind.PARTIAL_STROKE_TRAVEL)
        .doesNotContain(MeasureKind.SUPPLY_SAG, MeasureKind.SUPPLY_LOWEST);
  }

  @Test
  void aGapLeavesNothing() {
    double at = secondPart(bench(healthy(""), PLAIN, EXERCISE + CLOSED).run());
    String gap =
        Scripted.fault("input module", "late", Scripted.during(at + 0.5, 0.15) + "late_ms = 450");
    JudgedRun run =
        bench(healthy(gap), PLAIN, EXERCISE + CLOSED)
            .unitType(t -> t + "[practice]\nattempts = 1\n")
            .judge();

    assertThat(run.tests())
        .anyMatch(t -> t.name().equals("partial stroke") && t.reason().contains("gap"));
    assertThat(run.judgements())
        .filteredOn(j -> j.measure().method().equals("partial-stroke/1"))
        .isNotEmpty()
        .allSatisfy(j -> assertThat(j.measure().value()).isEmpty());
    assertThat(words(run)).containsOnly(Word.NO_RESULT);
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
  }

  /** When the second part was commanded, s of the bench. */
  private static double secondPart(RunRecord record) {
    return record.entries().stream()
            .filter(e -> e.event() instanceof Event.Commanded c && c.setpointPercent() == 15.0)
            .mapToLong(Entry::nanos)
            .skip(1)
            .findFirst()
            .orElseThrow()
        / 1e9;
  }

  private static List<Word> words(JudgedRun run) {
    return run.orders().stream()
        .filter(o -> o.isOf(AsOrdered.Subject.PARTIAL_STROKE))
        .map(AsOrdered::word)
        .toList();
  }

  private static double value(JudgedRun run, MeasureKind kind, String place, Truth truth) {
    return measure(run, kind, place, truth).value().orElseThrow();
  }

  private static Measure measure(JudgedRun run, MeasureKind kind, String place, Truth truth) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place) && m.truth() == truth)
        .findFirst()
        .orElseThrow();
  }
}
