package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.SplittableRandom;
import org.assertj.core.data.Offset;
import org.benchstroke.Counted;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Tie;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * What temperature and the time since the calibration add: by hand, and by counting. The channels
 * state 0.02 % of reading / K and 0.1 % of reading a year; the bench stands at 15 to 30 °C, the
 * accuracy holds at 18 to 28 °C, so that 3 K remain; calibrated on 2026-01-01.
 */
class InfluencesTest {
  private static final Offset<Double> EXACT = within(1e-9);
  private static final double ROOT = Math.sqrt(3.0);
  private static final int UNITS = Counted.of(4_000);

  /** 146 days after the calibration, which is 0.4 of a year. */
  private static final Instant DAY = Instant.parse("2026-05-27T10:00:00Z");

  private static RecordFixture fixture(boolean influenced) {
    RecordFixture fixture = new RecordFixture(DAY);
    fixture.influenced = influenced;
    return fixture;
  }

  private static Measure at(RecordFixture fixture, MeasureKind kind, String place) {
    return fixture.wholeRun().judge().judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .findFirst()
        .orElseThrow();
  }

  private static Component line(Measure measure, String source) {
    return measure.budget().orElseThrow().components().stream()
        .filter(c -> c.source().equals(source))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void travelErrorByHand() {
    Measure error = at(fixture(true), MeasureKind.TRAVEL_ERROR, "50 % up");
    // 12 mA × 0.02 %/K × 3 K = 7.2 µA; 12 mA × 0.1 %/a × 0.4 a = 4.8 µA; 6.25 % of travel per mA.
    Component temperature = line(error, "signal source temperature");
    assertThat(temperature.standard()).isCloseTo(0.0072 / ROOT, EXACT);
    assertThat(temperature.contribution()).isCloseTo(0.0072 * 6.25 / ROOT, EXACT);
    assertThat(temperature.unit()).isEqualTo("mA");
    assertThat(line(error, "signal source drift").standard()).isCloseTo(0.0048 / ROOT, EXACT);
    // The transmitter reads what the unit came to, 0.05 % less.
    double read = 4.0 + 0.16 * 49.95;
    assertThat(line(error, "position transmitter temperature").standard())
        .isCloseTo(read * 0.0006 / ROOT, within(1e-6));
    assertThat(line(error, "position transmitter drift").standard())
        .isCloseTo(read * 0.0004 / ROOT, within(1e-6));
  }

  @Test
  void whatIsNotStatedIsNotInTheBudget() {
    Measure error = at(fixture(false), MeasureKind.TRAVEL_ERROR, "50 % up");
    assertThat(error.budget().orElseThrow().components())
        .extracting(Component::source)
        .noneMatch(source -> source.contains("temperature") || source.contains("drift"));
  }

  /**
   * Both readings at a point have them in common, but for what they change over the way between
   * them.
   */
  @Test
  void theyCancelInHysteresisAndAsymmetry() {
    for (MeasureKind kind :
        List.of(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, MeasureKind.STROKE_ASYMMETRY)) {
      String place = kind == MeasureKind.STROKE_ASYMMETRY ? "" : place(kind);
      Budget with = at(fixture(true), kind, place).budget().orElseThrow();
      Budget without = at(fixture(false), kind, place).budget().orElseThrow();
      assertThat(apart(with)).isEqualTo(apart(without)).isNotEmpty();
    }
  }

  private static List<Component> apart(Budget budget) {
    return budget.components().stream()
        .filter(c -> c.tie().kind() != Tie.Kind.ONE_INSTRUMENT)
        .toList();
  }

  private static String place(MeasureKind kind) {
    return fixture(true).wholeRun().judge().judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .findFirst()
        .orElseThrow()
        .place()
        .words();
  }

  /**
   * At constant speed a stroke's end is passed later by what the transmitter is off, ÷ speed; at 5
   * % and at 95 % it may be off in opposite ways.
   */
  @Test
  void strokeTimeByHand() {
    Measure time = at(fixture(true), MeasureKind.STROKE_TIME_OPENING, "");
    double milliamps = 4.0 + 0.16 * 95.0 + 4.0 + 0.16 * 5.0;
    double halfPercent = milliamps * 0.0004 * 6.25;
    Component drift = line(time, "position transmitter drift, 2 together");
    assertThat(drift.standard()).isCloseTo(halfPercent / ROOT, EXACT);
    assertThat(drift.contribution()).isCloseTo(halfPercent * 0.15 / 0.9 / ROOT, within(1e-5));
  }

  /**
   * A record of a logged file whose day nobody told is taken to the last day of the certificate.
   */
  @Test
  void withoutADayTheLastOneCounts() {
    RecordFixture fixture = fixture(true);
    fixture.add(
        new Event.Imported(
            "trace", "x.csv", "0", List.of(), 1, false, true, 0.0, "%", false, List.of()));
    JudgedBench judged = judged(fixture);
    assertThat(judged.day()).isEmpty();
    // 365 days: 12 mA × 0.1 % = 12 µA.
    List<Component> lines = judged.budget(Truth.FEEDBACK).instruments().accuracy(50.0, 50.0);
    assertThat(lines)
        .filteredOn(c -> c.source().equals("signal source drift"))
        .singleElement()
        .satisfies(c -> assertThat(c.known()).isCloseTo(0.012, EXACT));
  }

  private static JudgedBench judged(RecordFixture fixture) {
    return JudgedBench.of(
        fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
  }

  /**
   * A bench that stands as cold as it may, with instruments of which coefficient and drift are
   * anywhere within what is stated of them.
   */
  @Test
  void intervalsHoldTheTruth() {
    PositionBudget budget = judged(fixture(true)).budget(Truth.FEEDBACK);
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 7);
      double truth = r.nextDouble(-1.0, 1.0);
      double noise = r.nextDouble(0.001, 0.03);
      double off = off(r, 16.0) + off(r, 16.0) + 6.25 * (step(r) + step(r));
      double[] samples = new double[20];
      for (int i = 0; i < samples.length; i++) {
        samples[i] = 75.0 + truth + off + noise * r.nextGaussian();
      }
      Spread s = Spread.of(samples);
      List<RestReading> read =
          List.of(new RestReading(75.0, Direction.UP, 1, s.mean(), s.deviation(), s.count()));
      Measure error =
          Measures.value(
              MeasureKind.TRAVEL_ERROR,
              Locations.of("75 % up"),
              Truth.FEEDBACK,
              s.mean() - 75.0,
              budget.error(read),
              "travel-error/2",
              "");
      coverage.add("travel error with temperature and drift", error, truth);
    }
    coverage.check("coverage-influences.md", 1);
  }

  private static double off(SplittableRandom r, double milliamps) {
    double sheet = r.nextDouble(-1, 1) * (0.0002 * milliamps + 0.002);
    double cold = r.nextDouble(-1, 1) * 0.0002 * (18.0 - 15.0) * milliamps;
    double aged = r.nextDouble(-1, 1) * 0.001 * 0.4 * milliamps;
    return 6.25 * (sheet + cold + aged);
  }

  private static double step(SplittableRandom r) {
    return r.nextDouble(-0.0005, 0.0005);
  }
}
