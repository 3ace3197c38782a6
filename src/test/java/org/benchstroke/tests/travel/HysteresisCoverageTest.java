package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.benchstroke.Counted;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Staircase;
import org.benchstroke.core.analysis.Staircase.Next;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Locations;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.stairs.StairMeasures;
import org.benchstroke.tests.stairs.StairRelation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whether U of hysteresis, start threshold and stop lead holds the truth in 93 to 97 % of 2,000
 * seeded units: differences of a travel error test and of the searches of two staircases. A unit's
 * place of rest scatters from one approach to the next. The truth of hysteresis + dead band, by
 * adjacent passes and by means alike, is the largest difference that the unit has on the average.
 */
class HysteresisCoverageTest {
  private static final int UNITS = Counted.of(2_000);
  private static final double FINEST = 0.02;
  private static final List<Position> POINTS =
      List.of(0.0, 25.0, 50.0, 75.0, 100.0).stream().map(Position::ofPercent).toList();

  /** The largest of several pairs, whose scatter is learnt from the same readings. */
  private static final List<String> OF_SEVERAL =
      List.of(
          MeasureKind.HYSTERESIS.title(),
          MeasureKind.HYSTERESIS_MEANS.title(),
          MeasureKind.HYSTERESIS_PLUS_DEAD_BAND.title(),
          MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS.title());

  private final JudgedBench judged;

  HysteresisCoverageTest() {
    RecordFixture fixture = new RecordFixture();
    judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
  }

  private static Next.Found search(double moves, double scatter, SplittableRandom random) {
    Staircase search = new Staircase(8.0 * FINEST, FINEST, 5.0, 2);
    double now = moves;
    while (true) {
      Next next = search.next();
      if (next instanceof Next.Come) {
        now = moves + scatter * random.nextGaussian();
        search.came(true);
      } else if (next instanceof Next.Probe probe) {
        search.saw(probe.totalPercent() >= now ? Seen.MOVED : Seen.STOOD);
      } else {
        return (Next.Found) next;
      }
    }
  }

  private static List<Measure> stairs(
      MeasureKind kind, double[] moves, double scatter, SplittableRandom r) {
    List<List<Next.Found>> searches = new ArrayList<>();
    for (double move : moves) {
      searches.add(
          List.of(search(move, scatter, r), search(move, scatter, r), search(move, scatter, r)));
    }
    List<Measure> measures = new ArrayList<>();
    for (int i = 0; i < moves.length; i++) {
      List<Next.Found> found = searches.get(i);
      double mean = found.stream().mapToDouble(Next.Found::middlePercent).average().orElseThrow();
      measures.add(
          Measures.value(
              kind,
              Locations.of(25 * (1 + i / 2) + (i % 2 == 0 ? " % up" : " % down")),
              Truth.FEEDBACK,
              mean,
              StairMeasures.components(found, StairMeasures.scatter(kind.title(), searches)),
              "",
              ""));
    }
    return measures;
  }

  @Test
  void intervalsHoldTheTruth() {
    Coverage coverage = new Coverage(OF_SEVERAL);
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 7);
      double scatter = r.nextDouble(0.0, 0.03);
      double start = r.nextDouble(0.5, 1.0);
      double[] bands = new double[6];
      double[] steps = new double[6];
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i < bands.length; i++) {
        double lead = r.nextDouble(0.1, 0.3);
        bands[i] = start + lead;
        steps[i] = start - lead;
        least = i % 2 == 1 ? Math.min(least, (bands[i - 1] + bands[i]) / 2.0) : least;
      }
      double slack = least + r.nextDouble(0.2, 1.0);
      TravelTest travel =
          new TravelTest(Optional.empty(), travel(slack, scatter, r), Optional.empty());
      List<Measure> all = new ArrayList<>(stairs(MeasureKind.DEAD_BAND, bands, scatter, r));
      all.addAll(stairs(MeasureKind.RESOLUTION, steps, scatter, r));
      JudgedBench knowing = judged.knowing(List.of(LagMeasuresTest.scattering(travel.feedback())));
      for (Measure m : HysteresisMeasure.all(knowing, travel, all)) {
        coverage.add(m.kind().title(), m, slack - least);
      }
      for (Measure m :
          new LagMeasures(travel.feedback(), knowing.budget(Truth.FEEDBACK)).all(false)) {
        coverage.magnitude(m.kind().title(), m, slack);
      }
      List<Measure> derived = StairRelation.all(all, 0.0);
      Measure threshold = derived.get(0);
      Measure lead = derived.get(1);
      coverage.add(MeasureKind.DEAD_BAND.title(), first(all, MeasureKind.DEAD_BAND), bands[0]);
      coverage.add(MeasureKind.RESOLUTION.title(), first(all, MeasureKind.RESOLUTION), steps[0]);
      coverage.add(threshold.kind().title(), threshold, start);
      coverage.add(lead.kind().title(), lead, bands[0] - start);
    }
    coverage.check("coverage-hysteresis.md", 8);
  }

  private static Measure first(List<Measure> measures, MeasureKind kind) {
    return measures.stream().filter(m -> m.kind() == kind).findFirst().orElseThrow();
  }

  private static TravelReadings travel(double slack, double scatter, SplittableRandom r) {
    double noise = r.nextDouble(0.005, 0.03);
    TravelError spec = new TravelError(POINTS, 3);
    List<RestReading> readings = new ArrayList<>();
    for (TravelError.Place place : spec.places()) {
      double side = place.direction() == Direction.UP ? -0.5 : 0.5;
      double at = place.setpointPercent() + side * slack + scatter * r.nextGaussian();
      double step = r.nextDouble(-0.003125, 0.003125) + r.nextDouble(-0.003125, 0.003125);
      double[] samples = new double[20];
      for (int i = 0; i < samples.length; i++) {
        samples[i] = at + step + noise * r.nextGaussian();
      }
      Spread s = Spread.of(samples);
      readings.add(
          new RestReading(
              place.setpointPercent(),
              place.direction(),
              place.cycle(),
              s.mean(),
              s.deviation(),
              s.count()));
    }
    return new TravelReadings(Truth.FEEDBACK, spec, readings, Map.of());
  }
}
