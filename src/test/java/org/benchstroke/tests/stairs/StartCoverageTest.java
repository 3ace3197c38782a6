package org.benchstroke.tests.stairs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.benchstroke.Counted;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.RestNoise;
import org.benchstroke.core.analysis.Staircase;
import org.benchstroke.core.analysis.Staircase.Next;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.Locations;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.Truth;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whether U of the start threshold holds the error above which a unit's motor starts, where its own
 * noise helps it to start: 2,000 seeded {@link NoisyStarter}s, searched as a run does it.
 */
class StartCoverageTest {
  private static final String NAME = "start threshold where noise helps to start";
  private static final int UNITS = Counted.of(2_000);
  private static final int CYCLES = 2;
  private static final int SAMPLES = 20;

  /** A run learns its noise from all windows; these do as well, and sooner. */
  private static final int LEARNT = 12;

  private static final double RESOLUTION = 0.00625;
  private static final double SETTLES_SECONDS = 0.4;

  /** Means at rest scatter by 0.01 % at most, and each motion is 0.1 % or more. */
  private static final double MOVED = 0.05;

  private final List<double[]> windows = new ArrayList<>();

  private double rest(NoisyStarter unit) {
    unit.pass(SETTLES_SECONDS);
    double[] read = unit.read(SAMPLES, RESOLUTION);
    windows.add(read);
    return Arrays.stream(read).average().orElseThrow();
  }

  /** One search; the signal goes on, or turns round, after the approach. */
  private Next.Found search(NoisyStarter unit, double finest, int approach, int sign) {
    Staircase search = new Staircase(8.0 * finest, finest, 5.0, 4);
    double stood = 0.0;
    while (true) {
      Next next = search.next();
      if (next instanceof Next.Come) {
        unit.come(50.0, approach);
        stood = rest(unit);
        search.came(true);
      } else if (next instanceof Next.Probe probe) {
        unit.ask(50.0 + sign * probe.totalPercent());
        search.saw(Math.abs(rest(unit) - stood) > MOVED ? Seen.MOVED : Seen.STOOD);
      } else {
        return (Next.Found) next;
      }
    }
  }

  private double noise() {
    double usual = RestNoise.of(windows.subList(0, LEARNT)).usual(SAMPLES);
    return new PositionNoise(usual, RESOLUTION).standard();
  }

  private List<Measure> stairs(NoisyStarter unit, MeasureKind kind, double finest) {
    List<List<Next.Found>> searches = new ArrayList<>();
    for (int approach : new int[] {1, -1}) {
      int sign = kind == MeasureKind.DEAD_BAND ? -approach : approach;
      List<Next.Found> found = new ArrayList<>();
      for (int i = 0; i < CYCLES; i++) {
        found.add(search(unit, finest, approach, sign));
      }
      searches.add(found);
    }
    List<Measure> measures = new ArrayList<>();
    for (List<Next.Found> found : searches) {
      double mean = found.stream().mapToDouble(Next.Found::middlePercent).average().orElseThrow();
      measures.add(
          Measures.value(
              kind,
              Locations.of(measures.isEmpty() ? "50 % up" : "50 % down"),
              Truth.FEEDBACK,
              mean,
              StairMeasures.components(found, StairMeasures.scatter(kind.title(), searches)),
              "",
              ""));
    }
    return measures;
  }

  @Test
  void intervalsHoldTheThresholdWhereNoiseHelps() {
    Coverage coverage = new Coverage(List.of(NAME));
    double bias = 0.0;
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      NoisyStarter unit = new NoisyStarter(r, r.nextDouble(0.0, 0.04));
      double finest = r.nextDouble(0.03, 0.05);
      windows.clear();
      List<Measure> all = new ArrayList<>(stairs(unit, MeasureKind.DEAD_BAND, finest));
      all.addAll(stairs(unit, MeasureKind.RESOLUTION, finest));
      bias += (StairRelation.all(all, 0.0).get(0).value().orElseThrow() - unit.start) / UNITS;
      coverage.add(NAME, StairRelation.all(all, noise()).get(0), unit.start);
    }
    // As it was found, it is too small: else these units would prove nothing.
    assertThat(bias).isBetween(-0.03, -0.008);
    coverage.check("coverage-start.md", 1);
  }
}
