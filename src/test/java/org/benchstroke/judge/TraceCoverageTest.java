package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.Counted;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.power.PowerLoss;
import org.benchstroke.tests.power.PowerLossMeasures;
import org.benchstroke.tests.ramp.SlowRamp;
import org.benchstroke.tests.stroke.StrokeTime;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whether the stated 95 % intervals of what is measured on a moving unit hold the true value in 93
 * to 97 % of 2,000 seeded units: motions known in closed form, read with noise, rounding, exchanges
 * of some length, and a transmitter that is off anywhere within its bounds.
 */
class TraceCoverageTest {
  private static final int UNITS = Counted.of(2_000);

  /** The speed of a unit, %/s. */
  private static final double RUNS = 100.0 / 15.0;

  private final RecordFixture fixture = new RecordFixture();
  private final double step = 0.00625;

  private JudgedBench judged(Event... more) {
    RecordFixture empty = new RecordFixture();
    for (Event event : more) {
      empty.add(event);
    }
    return JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(empty.entries, List.of()));
  }

  private static SplittableRandom random(int seed) {
    return new SplittableRandom(1_000_003L * seed + 11);
  }

  private MadeUpRun run(SplittableRandom r, DoubleUnaryOperator transmitter) {
    double noise = r.nextDouble(0.002, 0.03);
    double period = r.nextDouble(0.04, 0.15);
    double exchange = r.nextDouble(0.0, 0.3) * period;
    return new MadeUpRun(r, period, exchange, noise, step, transmitter);
  }

  /** ±(0.02 % of reading + 2 µA) in % of travel, anywhere within. */
  private static double bound(double percent) {
    return 6.25 * (0.0002 * (4.0 + percent / 6.25) + 0.002);
  }

  /** Straight between what it is off by at both ends, which are independent. */
  private static DoubleUnaryOperator transmitter(SplittableRandom r) {
    double low = r.nextDouble(-1, 1);
    double high = r.nextDouble(-1, 1);
    return p -> p + (low + (high - low) * (p - 5.0) / 90.0) * bound(p);
  }

  @Test
  void strokes() {
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = random(seed);
      int repeats = 2 + seed % 2;
      MadeUpRun run = run(r, transmitter(r));
      double opening = r.nextDouble(13.0, 20.0);
      double closing = opening * r.nextDouble(0.9, 1.1);
      double scatter = r.nextDouble(0.0, 0.1);
      double load = r.nextDouble(0.0, 0.2);
      double now = 1.0;
      run.command(0.0, now, now + 0.01);
      now += 0.02;
      for (int i = 0; i < 2 * repeats; i++) {
        boolean opens = i % 2 == 0;
        double seconds = (opens ? opening : closing) + scatter * r.nextGaussian();
        double from = now + 0.3;
        run.command(opens ? 100.0 : 0.0, now, now + 0.01);
        now =
            run.sample(
                now + 0.02,
                from + seconds + 5.0,
                t -> {
                  double gone = stroke((t - from) / seconds, load);
                  return opens ? gone : 100.0 - gone;
                });
      }
      double share = (stroked(95.0, load) - stroked(5.0, load)) / 0.9;
      for (Measure m :
          measures(StrokeTime.KIND, new StrokeTime(repeats), run.attempt("stroke time"))) {
        double truth =
            switch (m.kind()) {
              case STROKE_TIME_OPENING -> opening * share;
              case STROKE_TIME_CLOSING -> closing * share;
              default -> Math.abs(opening - closing) / (opening + closing) * 200.0;
            };
        // A largest of many has a bound instead, see StridesTest.
        if (m.kind() != MeasureKind.FEEDBACK_NOISE) {
          coverage.add(m.kind().title(), m, truth);
        }
      }
    }
    coverage.check("coverage-strokes.md", 3);
  }

  /** The share of a stroke at a share of its time: it speeds up a little all the way. */
  private static double stroke(double time, double load) {
    double t = Math.max(0.0, Math.min(1.0, time));
    return 100.0 * (t + load * t * (t - 1.0));
  }

  /** When it is there: the inverse. */
  private static double stroked(double percent, double load) {
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2.0;
      low = stroke(middle, load) < percent ? middle : low;
      high = stroke(middle, load) < percent ? high : middle;
    }
    return low;
  }

  @Test
  void ramps() {
    Coverage coverage = new Coverage(List.of(MeasureKind.RAMP_STARTS.title()));
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = random(seed);
      double off = r.nextDouble(-1, 1);
      MadeUpRun run = run(r, p -> p + off * bound(p));
      ramp(r, run, coverage);
    }
    coverage.check("coverage-ramps.md", 3);
  }

  private void ramp(SplittableRandom r, MadeUpRun run, Coverage coverage) {
    double rate = r.nextDouble(0.5, 2.0);
    double seconds = 40.0 / rate;
    double lag = r.nextDouble(0.1, 1.0);
    double stands = 1.0 - rate / RUNS;
    // A pause of less than a fifth of a second and two samples is not seen.
    double shortest = 0.5 * rate / stands;
    double jerk = r.nextDouble(shortest, shortest + 1.0);
    double source = r.nextDouble(-1, 1) * bound(50.0);
    double tick = r.nextDouble(0.05, 0.15);
    DoubleUnaryOperator unit =
        t -> {
          // It stands, then runs at its own speed; half a step late on the average.
          double on = Math.min(t, 1.0 + seconds) - 1.0 - lag - tick / 2.0;
          double at = 30.0 + source + rate * on;
          double behind = at / jerk - Math.floor(at / jerk);
          double ran = Math.max(0.0, behind - stands) * RUNS / rate;
          return at + jerk * (stands / 2.0 - behind + ran);
        };
    List<double[]> lines = new ArrayList<>();
    for (int i = 0; i * tick <= seconds; i++) {
      lines.add(new double[] {1.0 + i * tick, 30.0 + rate * i * tick});
    }
    for (double[] line : lines) {
      run.command(line[1], line[0] - 0.005, line[0] + 0.005);
    }
    double end = lines.get(lines.size() - 1)[0];
    run.sample(1.0, end + 6.0, unit);
    run.watched(SlowRamp.Way.THERE, 70.0, 0.9, end + 0.5);
    SlowRamp spec = new SlowRamp(Position.ofPercent(30.0), Position.ofPercent(70.0), 10.0);
    for (Measure m : measures(SlowRamp.KIND, spec, run.attempt("ramp"))) {
      if (m.place().words().equals("up")) {
        double truth =
            switch (m.kind()) {
              case RAMP_LAG -> lag;
              case RAMP_RESIDUAL -> jerk * stands / 2.0;
              default -> 60.0 * rate / jerk;
            };
        coverage.add(m.kind().title(), m, truth);
      }
    }
  }

  @Test
  void powerLoss() {
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < 2 * UNITS; seed++) {
      SplittableRandom r = random(seed);
      MadeUpRun run = run(r, p -> p);
      boolean moving = seed % 2 == 0;
      PowerLoss.Moment moment = moving ? PowerLoss.Moment.MOVING : PowerLoss.Moment.AT_REST;
      double speed = moving ? 100.0 / 15.0 * r.nextDouble(0.9, 1.1) : 0.0;
      double drift = r.nextDouble(0.05, 0.5);
      double begin = r.nextDouble(1.0, 1.1);
      double cut = begin + 3.0;
      DoubleUnaryOperator unit =
          t -> t < cut ? 50.0 + speed * (t - cut) : 50.0 + drift * Math.min(1.0, (t - cut) / 0.4);
      double back = run.sample(begin, cut + 5.0, unit);
      run.watched(moment, 50.0, cut, back);
      PowerLoss spec = new PowerLoss(Position.ofPercent(50.0), 5.0, List.of(moment));
      for (Measure m :
          new PowerLossMeasures(judged(), spec, run.attempt("power loss")).result().measures()) {
        coverage.add(m.kind().title() + ", " + moment.key(), m, drift);
      }
    }
    coverage.check("coverage-power.md", 2);
  }

  private <S extends TestSpec> List<Measure> measures(
      TestKind<S> kind, S spec, Optional<Chapter> attempt) {
    return kind.judge().of(judged(), spec, attempt).result().measures();
  }
}
