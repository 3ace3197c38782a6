package org.benchstroke.tests.travel;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.benchstroke.bench.Mounting;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Made-up angle references that sit beside the axis, are not quite zeroed and have play in their
 * coupling, each anywhere within what the bench file states: intervals of the stem's measures hold
 * the truth in 95 % and more with the mounting stated, and not without it.
 */
class MountingCoverageTest {
  private static final int UNITS = 120;

  /** 95 % less what chance does with so few: two of its deviations. */
  private static final double LEAST = 0.91;

  private static final double PERCENT_OF_DEGREE = 1.0 / 0.9;
  private static final Mounting MOUNTING = new Mounting(0.3, 30.0, 0.4, 0.15);
  private static final TravelError SPEC =
      new TravelError(
          List.of(0.0, 25.0, 50.0, 75.0, 100.0).stream().map(Position::ofPercent).toList(), 3);

  private static JudgedBench judged(boolean stated) {
    RecordFixture fixture = new RecordFixture();
    fixture.angleReference = true;
    fixture.mounting = stated ? Optional.of(MOUNTING) : Optional.empty();
    return JudgedBench.of(
        fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
  }

  @Test
  void intervalsHoldTheTruthOnlyWithTheMountingStated() {
    Map<MeasureKind, Integer> with = new EnumMap<>(MeasureKind.class);
    Map<MeasureKind, Integer> without = new EnumMap<>(MeasureKind.class);
    JudgedBench stated = judged(true);
    JudgedBench unstated = judged(false);
    for (int seed = 0; seed < UNITS; seed++) {
      count(seed, stated, with);
      if (seed % 3 == 0) {
        count(seed, unstated, without);
      }
    }
    for (MeasureKind kind :
        List.of(
            MeasureKind.TRAVEL_ERROR,
            MeasureKind.SPAN_ERROR,
            MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS)) {
      assertThat(with.getOrDefault(kind, 0) / (double) UNITS).as(kind.title()).isGreaterThan(LEAST);
      assertThat(without.getOrDefault(kind, 0) / (UNITS / 3.0))
          .as(kind.title() + " without")
          .isLessThan(0.75);
    }
  }

  private static void count(int seed, JudgedBench bench, Map<MeasureKind, Integer> held) {
    SplittableRandom r = new SplittableRandom(1_000_003L * seed + 7);
    double zero = r.nextDouble(-0.5, 0.5);
    double span = r.nextDouble(-0.5, 0.5);
    double slack = r.nextDouble(0.3, 0.6);
    double phase = r.nextDouble(2.0 * Math.PI);
    double off = r.nextDouble(-1.0, 1.0) * MOUNTING.zeroDegrees();
    double play = r.nextDouble() * MOUNTING.couplingDegrees();
    double source = r.nextDouble(-1.0, 1.0) * 0.002 * 6.25;
    List<RestReading> truth = new ArrayList<>();
    List<RestReading> read = new ArrayList<>();
    for (TravelError.Place place : SPEC.places()) {
      double s = place.setpointPercent();
      double side = place.direction() == Direction.UP ? -0.5 : 0.5;
      double stands = s + zero + span * s / 100.0 + side * slack;
      double turn = Math.toRadians(stands / PERCENT_OF_DEGREE);
      double wrong =
          MOUNTING.eccentricityDegrees() * Math.sin(turn + phase) + off + 2.0 * side * play;
      double shown = stands + source + wrong * PERCENT_OF_DEGREE + 0.02 * r.nextGaussian();
      truth.add(reading(place, stands));
      read.add(reading(place, shown));
    }
    TravelReadings taken =
        new TravelReadings(Truth.STEM, SPEC, read, Map.of(), List.of(), List.of());
    JudgedBench knowing = bench.knowing(List.of(LagMeasuresTest.scattering(taken)));
    StaticCharacteristic exact = new StaticCharacteristic(truth);
    for (Measure m : new TravelMeasures(taken, knowing.budget(Truth.STEM), "").all()) {
      double is =
          switch (m.kind()) {
            case TRAVEL_ERROR ->
                m.place().words().equals("75 % up")
                    ? exact.error(75.0, Direction.UP).orElseThrow()
                    : Double.NaN;
            case SPAN_ERROR -> exact.spanError().orElseThrow();
            case HYSTERESIS_PLUS_DEAD_BAND_MEANS -> slack;
            default -> Double.NaN;
          };
      if (Math.abs(m.value().orElse(Double.NaN) - is)
          <= m.budget().map(b -> b.expand().half()).orElse(0.0)) {
        held.merge(m.kind(), 1, Integer::sum);
      }
    }
  }

  private static RestReading reading(TravelError.Place place, double percent) {
    return new RestReading(
        place.setpointPercent(), place.direction(), place.cycle(), percent, 0.01, 20);
  }
}
