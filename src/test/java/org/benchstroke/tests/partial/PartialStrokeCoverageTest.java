package org.benchstroke.tests.partial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.Counted;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Coverage;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.MadeUpRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.MeterShape;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Word;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.partial.PartialStroke.Part;
import org.benchstroke.tests.partial.PartialStroke.Way;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whether the stated 95 % intervals of a partial stroke hold the true value: units that stand for a
 * while, then go at one speed to where they stop, read with noise, rounding, exchanges of some
 * length and a transmitter that is off within its data sheet. And what such a record must not pass.
 */
class PartialStrokeCoverageTest {
  /** More than are needed: in one of 30 noise makes a window look as if nothing rested there. */
  private static final int UNITS = Counted.of(2_160);

  private static final double STEP = 0.00625;

  /** Beyond which it is at rest: the dead band of the invented unit type. */
  private static final double BAND = 0.5;

  private final RecordFixture fixture = new RecordFixture();
  private final JudgedBench judged =
      JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));

  /** One unit: which end, after how long it breaks away, how fast it goes and how far. */
  private static final class Unit {
    final double end;
    final double to;
    final double sign;
    final double dead;
    final double speed;
    final double reached;
    private final double stood;
    private final double source;
    double tooFar;
    boolean comesBack = true;

    Unit(SplittableRandom r, boolean opens) {
      end = opens ? 0.0 : 100.0;
      sign = opens ? 1.0 : -1.0;
      to = end + sign * 15.0;
      dead = r.nextDouble(0.05, 1.5);
      speed = r.nextDouble(4.0, 8.0);
      stood = sign * r.nextDouble(0.0, 0.3);
      reached = r.nextDouble(14.0, 16.0);
      source = r.nextDouble(-1.0, 1.0) * bound(to);
    }

    PartialStroke spec() {
      return new PartialStroke(Position.ofPercent(end), Position.ofPercent(to), 1);
    }

    /** How far it has gone some time after its command, out or back. */
    double at(Way way, double seconds) {
      double run = Math.max(0.0, speed * (seconds - dead));
      if (way == Way.BACK) {
        return end + stood + sign * (comesBack ? Math.max(0.0, reached - run) : reached);
      }
      double turn = reached + tooFar;
      return end + stood + sign * (run < turn ? run : Math.max(reached, 2.0 * turn - run));
    }

    double truth(MeasureKind kind, double threshold) {
      return switch (kind) {
        case BREAKAWAY_TIME -> dead + threshold / speed;
        case PARTIAL_STROKE_TRAVEL -> reached;
        case STEADY_STATE_ERROR -> end + stood + sign * reached - to - source;
        default -> dead + (reached - BAND) / speed;
      };
    }
  }

  /** ±(0.02 % of reading + 2 µA) in % of travel: of the source and of the transmitter. */
  private static double bound(double percent) {
    return 6.25 * (0.0002 * (4.0 + percent / 6.25) + 0.002);
  }

  /** Its record: at rest, out, back. */
  private static Optional<Chapter> attempt(SplittableRandom r, MadeUpRun run, Unit unit) {
    run.command(unit.end, 0.0, 0.01);
    double now = run.sample(r.nextDouble(0.02, 0.12), 5.0, t -> unit.at(Way.OUT, 0.0));
    for (Way way : Way.values()) {
      double to = way == Way.OUT ? unit.to : unit.end;
      double asked = now;
      double set = asked + 0.01 * r.nextDouble();
      run.command(to, asked, asked + 0.01);
      double rest = set + unit.dead + (unit.reached + 2.0 * unit.tooFar) / unit.speed;
      DoubleUnaryOperator position = t -> unit.at(way, t - set);
      double window = 20.5 * run.period();
      now = run.sample(asked + 0.02, rest + 1.0 + window, position);
      run.rested(new Part(way, 1), to, 1, now - window, now - 0.001);
      now = run.sample(now, now + 30.0 * run.period(), position);
    }
    return run.attempt(PartialStroke.NAME);
  }

  private static MadeUpRun run(SplittableRandom r, int seed, double noise) {
    MeterShape[] shapes = {MeterShape.OFFSET, MeterShape.TILT, MeterShape.BOW, MeterShape.S};
    MeterShape.Drawn off = shapes[seed % shapes.length].draw(r);
    DoubleUnaryOperator transmitter = p -> p + off.at(p) * bound(p);
    double period = r.nextDouble(0.05, 0.15);
    return new MadeUpRun(r, period, r.nextDouble(0.0, 0.3) * period, noise, STEP, transmitter);
  }

  private TestResult result(Unit unit, Optional<Chapter> attempt) {
    return PartialStroke.KIND.judge().of(judged, unit.spec(), attempt).result();
  }

  @Test
  void everyIntervalHoldsItsTruth() {
    Coverage coverage =
        new Coverage(
            List.of(
                MeasureKind.PARTIAL_STROKE_TRAVEL.title(), MeasureKind.STEADY_STATE_ERROR.title()));
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 17);
      Unit unit = new Unit(r, seed % 2 == 0);
      MadeUpRun run = run(r, seed, r.nextDouble(0.002, 0.03));
      TestResult result = result(unit, attempt(r, run, unit));
      double threshold =
          ((TestTrace.OfStep) result.traces().get(0)).response().orElseThrow().thresholdPercent();
      for (Measure m : result.measures()) {
        if (m.value().isPresent()) {
          coverage.add(m.kind().title(), m, unit.truth(m.kind(), threshold));
        }
      }
      assertThat(result.orders()).extracting(AsOrdered::word).containsExactly(Word.PASS);
    }
    coverage.check("coverage-partial-stroke.md", 5);
  }

  /** A sound unit, read without noise. */
  private static Unit sound() {
    return new Unit(new SplittableRandom(5), true);
  }

  private static MadeUpRun quiet(DoubleUnaryOperator shown) {
    return new MadeUpRun(new SplittableRandom(5), 0.1, 0.01, 0.003, STEP, shown);
  }

  private void noResult(Optional<Chapter> attempt, String reason) {
    TestResult result = result(sound(), attempt);
    assertThat(result.measures())
        .hasSize(5)
        .allSatisfy(m -> assertThat(m.value()).as(m.toString()).isEmpty())
        .anySatisfy(m -> assertThat(m.note()).contains(reason));
    assertThat(result.orders()).extracting(AsOrdered::word).containsExactly(Word.NO_RESULT);
  }

  private static Optional<Chapter> attempt(DoubleUnaryOperator shown) {
    return attempt(new SplittableRandom(5), quiet(shown), sound());
  }

  @Test
  void whatWasNotCompletedHasNoResult() {
    noResult(Optional.empty(), "the test was not completed");
  }

  @Test
  void aFrozenValueHasNoResult() {
    MadeUpRun run = new MadeUpRun(new SplittableRandom(5), 0.1, 0.01, 0.0, STEP, p -> 0.05);
    noResult(attempt(new SplittableRandom(5), run, sound()), "frozen value");
  }

  @Test
  void anImpossibleSlewHasNoResult() {
    noResult(attempt(p -> p > 7.0 ? p + 3.0 : p), "impossible slew");
  }

  @Test
  void aPeggedReadingHasNoResult() {
    TestResult result = result(sound(), attempt(p -> p > 7.0 ? Double.NaN : p));
    assertThat(result.measures())
        .filteredOn(m -> m.kind() != MeasureKind.BREAKAWAY_TIME)
        .allSatisfy(m -> assertThat(m.value()).as(m.toString()).isEmpty());
    assertThat(result.orders()).extracting(AsOrdered::word).containsExactly(Word.NO_RESULT);
  }

  @Test
  void aPartThatGoesTooFarFailsThoughItEndsRight() {
    Unit far = sound();
    far.tooFar = 5.0;
    TestResult result = result(far, attempt(new SplittableRandom(5), quiet(p -> p), far));
    assertThat(result.orders())
        .extracting(AsOrdered::word, o -> o.found().contains("% too far"))
        .containsExactly(tuple(Word.FAIL, true));
  }

  @Test
  void aUnitThatDoesNotComeBackFails() {
    Unit stays = sound();
    stays.comesBack = false;
    TestResult result = result(stays, attempt(new SplittableRandom(5), quiet(p -> p), stays));
    assertThat(result.orders()).extracting(AsOrdered::word).containsExactly(Word.FAIL);
    assertThat(result.measures())
        .filteredOn(m -> m.kind() == MeasureKind.PARTIAL_STROKE_RETURN_TIME)
        .extracting(Measure::note)
        .containsExactly("it did not move");
  }
}
