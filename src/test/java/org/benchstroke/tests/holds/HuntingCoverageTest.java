package org.benchstroke.tests.holds;

import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.Counted;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.MadeUpRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;

/**
 * Whether the stated 95 % intervals of a unit that hunts hold the true value, whatever the shape of
 * its wave and however it is sampled. The waves are closed forms of elementary calculus, drawn with
 * noise, rounding and exchanges of some length; nothing tells the judge which one it is.
 */
class HuntingCoverageTest {
  private static final int UNITS = Counted.of(2_000);
  private static final int MOTORS = Counted.of(500);
  private static final double STEP = 0.00625;

  /** The speed of the unit of the fixture, %/s. */
  private static final double SPEED = 100.0 / 15.0;

  private final RecordFixture fixture = new RecordFixture();

  @Test
  void theirIntervalsHoldWavesOfEveryShape() {
    Coverage all = new Coverage();
    Coverage each = new Coverage();
    Wave[] waves = Wave.values();
    // Some are sampled too seldom to be judged: they are drawn again.
    for (int seed = 0, judged = 0; judged < UNITS && seed < 3 * UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      Wave wave = waves[seed % waves.length];
      DoubleUnaryOperator form = wave.drawn(r);
      double noise = r.nextDouble(0.0, 0.02);
      double size = r.nextDouble(0.4, 2.0);
      double cycle = Math.max(r.nextDouble(1.0, 8.0), 2.5 * size / SPEED);
      double period = cycle / Math.exp(r.nextDouble(Math.log(12.0), Math.log(150.0)));
      double phase = r.nextDouble();
      MadeUpRun run =
          new MadeUpRun(r, period, r.nextDouble(0.0, 0.3) * period, noise, STEP, p -> p);
      double seconds = cycle * r.nextDouble(3.0, 12.0);
      run.command(50.0, 0.5, 0.51);
      run.sample(
          1.0,
          1.0 + seconds,
          t -> {
            double f = t / cycle + phase;
            return 50.0 + size * form.applyAsDouble(f - Math.floor(f));
          });
      run.watched(new Holds.Stay(0, Position.ofPercent(50.0)), 50.0, 1.0, 1.001 + seconds);
      List<Measure> measures = measures(run, noise, seconds);
      if (measures.get(0).value().isEmpty()) {
        continue;
      }
      judged++;
      for (Measure m : measures) {
        double truth =
            switch (m.kind()) {
              case HUNTING_PEAK_TO_PEAK -> size;
              case HUNTING_REVERSALS -> 120.0 / cycle;
              default -> Double.NaN;
            };
        if (!Double.isNaN(truth)) {
          all.add(m.kind().title(), m, truth);
          each.add(m.kind().title() + ", " + wave.title, m, truth);
        }
      }
    }
    all.atLeast("coverage-hunting.md", 2, UNITS, 93.0);
    each.atLeast("coverage-hunting-waves.md", 2 * waves.length, Counted.of(300), 84.0);
  }

  /** A motor that runs at its speed, coasts and pauses: only then is a start a start. */
  @Test
  void startsOfAMotor() {
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < MOTORS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      double noise = r.nextDouble(0.002, 0.02);
      double period = r.nextDouble(0.02, 0.08);
      double size = r.nextDouble(0.4, 2.0);
      double moves = size / r.nextDouble(3.0, 8.0);
      double cycle = 2.0 * (moves + r.nextDouble(0.3, 0.8));
      double phase = r.nextDouble();
      double seconds = r.nextDouble(15.0, 40.0);
      DoubleUnaryOperator form = Wave.coast(2.0 * moves / cycle, 1.0 / 3.0);
      MadeUpRun run =
          new MadeUpRun(r, period, r.nextDouble(0.0, 0.3) * period, noise, STEP, p -> p);
      run.command(50.0, 0.5, 0.51);
      run.sample(
          1.0,
          1.0 + seconds,
          t -> 50.0 + size * form.applyAsDouble(t / cycle + phase - Math.floor(t / cycle + phase)));
      run.watched(new Holds.Stay(0, Position.ofPercent(50.0)), 50.0, 1.0, 1.001 + seconds);
      Measure starts = measures(run, noise, seconds).get(2);
      coverage.add(starts.kind().title(), starts, 7200.0 / cycle);
    }
    coverage.atLeast("coverage-starts.md", 1, MOTORS, 93.0);
  }

  private List<Measure> measures(MadeUpRun run, double noise, double seconds) {
    RecordFixture empty = new RecordFixture();
    empty.add(new Event.Checked("noise at rest", "ok", "", Map.of("deviation_percent", noise)));
    JudgedBench judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(empty.entries, List.of()));
    Holds spec = new Holds(List.of(Position.ofPercent(50.0)), seconds);
    return new HuntingMeasures(judged, spec, run.attempt("hunting")).result().measures();
  }

  /** A wave of period 1 between 0 and 1. */
  enum Wave {
    TRIANGLE("constant speed both ways"),
    SKEWED("constant speed, slower one way"),
    SINE("sine"),
    TRAPEZOID("constant speed and a stand"),
    COAST("constant speed, an even coast and a pause"),
    LAGGED("a jump through a first-order filter");

    private final String title;

    Wave(String title) {
      this.title = title;
    }

    /** One of this shape. */
    DoubleUnaryOperator drawn(SplittableRandom r) {
      double share = r.nextDouble();
      double moves = 0.2 + 0.7 * share;
      return switch (this) {
        case TRIANGLE -> f -> f < 0.5 ? 2.0 * f : 2.0 - 2.0 * f;
        case SKEWED -> {
          double up = 0.15 + 0.7 * share;
          yield f -> f < up ? f / up : (1.0 - f) / (1.0 - up);
        }
        case SINE -> f -> (1.0 - Math.cos(2.0 * Math.PI * f)) / 2.0;
        case TRAPEZOID -> bothWays(g -> Math.min(1.0, g / moves));
        case COAST -> coast(moves, r.nextDouble(0.1, 0.6));
        case LAGGED -> {
          double tau = 0.05 + 0.25 * share;
          double end = Math.exp(-1.0 / tau);
          yield bothWays(g -> (1.0 - Math.exp(-g / tau)) / (1.0 - end));
        }
      };
    }

    /**
     * Uniform speed, then an even coast, then a pause.
     *
     * @param moves the share of half a period in motion
     * @param coast the share of that in which it coasts
     */
    static DoubleUnaryOperator coast(double moves, double coast) {
      double speed = 1.0 / (1.0 - coast / 2.0);
      return bothWays(
          g -> {
            double x = Math.min(1.0, g / moves);
            return x < 1.0 - coast
                ? speed * x
                : 1.0 - speed * (1.0 - x) * (1.0 - x) / (2.0 * coast);
          });
    }

    /** Down as it went up. */
    private static DoubleUnaryOperator bothWays(DoubleUnaryOperator up) {
      return f -> f < 0.5 ? up.applyAsDouble(2.0 * f) : 1.0 - up.applyAsDouble(2.0 * f - 1.0);
    }
  }
}
