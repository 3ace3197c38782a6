package org.benchstroke.tests.travel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.quantity.CertifiedPoints;
import org.benchstroke.core.quantity.CertifiedPoints.Point;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Made-up instruments whose errors are those of their certificates, each point off by something of
 * the certificate's own U: the same at all points, anew at each, or opposed from one to the next.
 * Their errors are several times what their data sheets allow. Intervals must hold the truth in 95
 * % and more (of several points they are bounds), and without the corrections they must not.
 */
class CertificateCoverageTest {
  private static final int UNITS = 120;

  /** 95 % less what chance does with so few: two of its deviations. */
  private static final double LEAST = 0.91;

  /** mA to % of travel. */
  private static final double PERCENT = 6.25;

  private static final double[] AT = {3.6, 8.0, 12.0, 16.0, 20.4};
  private static final double[] SOURCE = {0.012, 0.02, 0.006, -0.01, -0.024};
  private static final double[] METER = {-0.02, -0.014, 0.002, 0.016, 0.018};

  /** The certificate's U is 6 µA with k = 2. */
  private static final double STANDARD = 0.003;

  private static final TravelError SPEC =
      new TravelError(
          List.of(0.0, 25.0, 50.0, 75.0, 100.0).stream().map(Position::ofPercent).toList(), 3);

  private static CertifiedPoints points(double[] corrections) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < AT.length; i++) {
      points.add(new Point(AT[i], corrections[i], STANDARD));
    }
    return new CertifiedPoints(points);
  }

  private static JudgedBench judged(boolean certified) {
    RecordFixture fixture = new RecordFixture();
    if (certified) {
      fixture.certified.put(Role.SIGNAL_SOURCE, points(SOURCE));
      fixture.certified.put(Role.POSITION_TRANSMITTER, points(METER));
    }
    return JudgedBench.of(
        fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
  }

  /** What the corrections of one specimen really would have to be. */
  private static CertifiedPoints real(double[] corrections, int shape, SplittableRandom r) {
    double common = r.nextGaussian();
    double[] real = corrections.clone();
    for (int i = 0; i < real.length; i++) {
      double drawn =
          switch (shape) {
            case 0 -> common;
            case 1 -> r.nextGaussian();
            default -> i % 2 == 0 ? common : -common;
          };
      real[i] += STANDARD * drawn;
    }
    return points(real);
  }

  @Test
  void intervalsHoldTheTruthOnlyWithTheCorrections() {
    Map<MeasureKind, Integer> with = new EnumMap<>(MeasureKind.class);
    Map<MeasureKind, Integer> without = new EnumMap<>(MeasureKind.class);
    Map<MeasureKind, Integer> all = new EnumMap<>(MeasureKind.class);
    Map<MeasureKind, Integer> few = new EnumMap<>(MeasureKind.class);
    JudgedBench corrected = judged(true);
    JudgedBench raw = judged(false);
    for (int seed = 0; seed < UNITS; seed++) {
      count(seed, corrected, with, all);
      if (seed % 3 == 0) {
        count(seed, raw, without, few);
      }
    }
    for (MeasureKind kind :
        List.of(
            MeasureKind.TRAVEL_ERROR,
            MeasureKind.SPAN_ERROR,
            MeasureKind.HYSTERESIS_PLUS_DEAD_BAND,
            MeasureKind.LINEARITY_INDEPENDENT)) {
      assertThat(with.get(kind) / (double) all.get(kind)).as(kind.title()).isGreaterThan(LEAST);
    }
    for (MeasureKind kind : List.of(MeasureKind.TRAVEL_ERROR, MeasureKind.SPAN_ERROR)) {
      assertThat(without.get(kind) / (double) few.get(kind)).as(kind.title()).isLessThan(0.6);
    }
  }

  /**
   * By hand, at 50 % going up, where the feedback rests at 49.95 %. The source's correction at 12
   * mA is 6 µA, so the unit was asked for 50.0375 %; that of the transmitter at 11.992 mA is 1.968
   * µA, so it stood at 49.9623 %.
   */
  @Test
  void theJudgeCorrectsAndTheRecordKeepsWhatWasRead() {
    RecordFixture fixture = new RecordFixture().wholeRun();
    fixture.certified.put(Role.SIGNAL_SOURCE, points(SOURCE));
    fixture.certified.put(Role.POSITION_TRANSMITTER, points(METER));
    List<Object> before = List.copyOf(fixture.entries);
    JudgedRun run = fixture.judge();
    Measure error =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(
                m -> m.kind() == MeasureKind.TRAVEL_ERROR && m.place().words().equals("50 % up"))
            .findFirst()
            .orElseThrow();
    assertThat(error.value().orElseThrow()).isCloseTo(49.9623 - 50.0375, within(2e-4));
    assertThat(error.budget().orElseThrow().components())
        .extracting(Component::source)
        .contains("signal source certificate", "position transmitter certificate")
        .doesNotContain("signal source accuracy", "position transmitter accuracy");
    assertThat(run.record().entries()).isEqualTo(before);
  }

  private static void count(
      int seed, JudgedBench bench, Map<MeasureKind, Integer> held, Map<MeasureKind, Integer> all) {
    SplittableRandom r = new SplittableRandom(1_000_003L * seed + 7);
    double zero = r.nextDouble(-0.5, 0.5);
    double span = r.nextDouble(-0.5, 0.5);
    double bow = r.nextDouble(-0.3, 0.3);
    double slack = r.nextDouble(0.1, 0.6);
    CertifiedPoints source = real(SOURCE, seed % 3, r);
    CertifiedPoints meter = real(METER, seed % 3, r);
    List<RestReading> truth = new ArrayList<>();
    List<RestReading> read = new ArrayList<>();
    for (TravelError.Place place : SPEC.places()) {
      double s = place.setpointPercent();
      double side = place.direction().text().equals("up") ? -0.5 : 0.5;
      double error = zero + span * s / 100.0 + bow * Math.sin(Math.PI * s / 50.0) + side * slack;
      double milliamps = 4.0 + s / PERCENT;
      double asked = s + source.correctionAt(milliamps) * PERCENT;
      double position = asked + error + 0.02 * r.nextGaussian();
      // The meter shows what its correction must be added to.
      double shown = position - meter.correctionAt(4.0 + position / PERCENT) * PERCENT;
      Event.Sampled sampled = new Event.Sampled("position", shown, "%", "good", "", 0, 1);
      Event.Commanded commanded = new Event.Commanded(s, milliamps, milliamps, 0, 1);
      truth.add(reading(place, s, s + error));
      read.add(reading(place, bench.asked(commanded), bench.samples().percent(sampled)));
    }
    TravelReadings taken =
        new TravelReadings(Truth.FEEDBACK, SPEC, read, Map.of(), List.of(), List.of());
    JudgedBench knowing = bench.knowing(List.of(LagMeasuresTest.scattering(taken)));
    StaticCharacteristic exact = new StaticCharacteristic(truth);
    for (Measure m : new TravelMeasures(taken, knowing.budget(Truth.FEEDBACK), "").all()) {
      double off =
          switch (m.kind()) {
            case TRAVEL_ERROR ->
                m.place().words().equals("75 % up")
                    ? m.value().orElseThrow() - exact.error(75.0, Direction.UP).orElseThrow()
                    : Double.NaN;
            case SPAN_ERROR -> m.value().orElseThrow() - exact.spanError().orElseThrow();
            case HYSTERESIS_PLUS_DEAD_BAND ->
                Math.abs(m.value().orElseThrow())
                    - Math.abs(exact.hysteresisPlusDeadBand(Pairing.MEANS).orElseThrow().percent());
            case LINEARITY_INDEPENDENT ->
                Math.abs(m.value().orElseThrow())
                    - Math.abs(DrawnTravel.deviation(m.kind(), exact.averageCurve()).deviation());
            default -> Double.NaN;
          };
      if (Double.isFinite(off)) {
        all.merge(m.kind(), 1, Integer::sum);
        boolean holds = Math.abs(off) <= m.budget().orElseThrow().expand().half();
        held.merge(m.kind(), holds ? 1 : 0, Integer::sum);
      }
    }
  }

  private static RestReading reading(TravelError.Place place, double asked, double percent) {
    return new RestReading(
        place.setpointPercent(), asked, place.direction(), place.cycle(), percent, 0.01, 20);
  }
}
