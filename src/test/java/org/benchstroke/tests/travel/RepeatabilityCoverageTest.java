package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.benchstroke.Counted;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Repeatability of units that repeat far better than they are read, or far worse: of the largest of
 * eleven ranges of five readings, noise alone makes some. The truth is the largest range of where
 * the unit itself stood.
 */
class RepeatabilityCoverageTest {
  private static final int UNITS = Counted.of(400);
  private static final int CYCLES = 5;
  private static final int SAMPLES = 20;
  private static final double STEP = 0.00625;

  @Test
  void uHoldsTheRangeOfTheUnitItself() {
    List<Position> points =
        IntStream.rangeClosed(0, 10).mapToObj(i -> Position.ofPercent(10.0 * i)).toList();
    TravelError spec = new TravelError(points, CYCLES);
    RecordFixture fixture = new RecordFixture();
    JudgedBench judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
    Coverage coverage =
        new Coverage(List.of("repeatability, quiet units", "repeatability, units that scatter"));
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      double noise = 0.05 * Math.pow(4.0, r.nextDouble());
      boolean quiet = seed % 2 == 0;
      // Less than the mean of twenty readings shows, or more.
      double scatter = noise * (quiet ? r.nextDouble(0.0, 0.05) : r.nextDouble(0.2, 2.0));
      List<RestReading> readings = new ArrayList<>();
      double[] lowest = new double[points.size()];
      double[] highest = new double[points.size()];
      Arrays.fill(lowest, Double.POSITIVE_INFINITY);
      Arrays.fill(highest, Double.NEGATIVE_INFINITY);
      for (TravelError.Place place : spec.places()) {
        double stands = place.setpointPercent() + scatter * r.nextGaussian();
        int i = (int) Math.round(place.setpointPercent() / 10.0);
        if (place.direction() == Direction.UP) {
          lowest[i] = Math.min(lowest[i], stands);
          highest[i] = Math.max(highest[i], stands);
        }
        readings.add(read(place, stands, noise, r));
      }
      double truth =
          IntStream.range(1, lowest.length)
              .mapToDouble(i -> highest[i] - lowest[i])
              .max()
              .orElseThrow();
      TravelReadings taken = new TravelReadings(Truth.FEEDBACK, spec, readings, Map.of());
      Measure up =
          new RepeatabilityMeasures(taken, judged.budget(Truth.FEEDBACK))
              .all().stream()
                  .filter(m -> m.place().words().endsWith("up"))
                  .findFirst()
                  .orElseThrow();
      coverage.add(
          MeasureKind.REPEATABILITY.title() + (quiet ? ", quiet units" : ", units that scatter"),
          up,
          truth);
    }
    coverage.atLeast("coverage-repeatability.md", 2, Counted.of(200), 93.0);
  }

  private static RestReading read(
      TravelError.Place place, double stands, double noise, SplittableRandom r) {
    double[] samples = new double[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
      samples[i] = Math.rint((stands + noise * r.nextGaussian()) / STEP) * STEP;
    }
    Spread s = Spread.of(samples);
    return new RestReading(
        place.setpointPercent(),
        place.direction(),
        place.cycle(),
        s.mean(),
        s.deviation(),
        SAMPLES);
  }
}
