package org.benchstroke.tests.holds;

import static org.assertj.core.api.Assertions.assertThat;

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
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * How often a unit turns while it is held, where that is hard to see: it creeps meanwhile, or goes
 * to and fro by little more than its noise, or by less. Triangles and sines of known period; either
 * U holds the truth, or there is no result.
 */
class ReversalsCoverageTest {
  private static final int UNITS = Counted.of(800);
  private static final double PERIOD = 0.05;
  private static final double SECONDS = 60.0;
  private static final String NAME = MeasureKind.HUNTING_REVERSALS.title();

  private final RecordFixture fixture = new RecordFixture();

  /** To and fro by a size about 50 %. */
  private static DoubleUnaryOperator wave(
      SplittableRandom r, double size, double cycle, DoubleUnaryOperator beside) {
    double phase = r.nextDouble();
    boolean sine = r.nextBoolean();
    return t -> {
      double f = t / cycle + phase;
      double x = f - Math.floor(f);
      double way = sine ? 0.5 - 0.5 * Math.cos(2.0 * Math.PI * x) : 1.0 - Math.abs(2.0 * x - 1.0);
      return 49.5 + size * way + beside.applyAsDouble(t);
    };
  }

  private TestResult held(SplittableRandom r, double noise, DoubleUnaryOperator position) {
    MadeUpRun run = new MadeUpRun(r, PERIOD, 0.0, noise, 0.0, p -> p);
    run.command(50.0, 0.5, 0.51);
    run.sample(1.0, 1.0 + SECONDS, position);
    run.watched(new Holds.Stay(0, Position.ofPercent(50.0)), 50.0, 1.0, 1.001 + SECONDS);
    RecordFixture checked = new RecordFixture();
    checked.add(new Event.Checked("noise at rest", "ok", "", Map.of("deviation_percent", noise)));
    JudgedBench judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(checked.entries, List.of()));
    Holds spec = new Holds(List.of(Position.ofPercent(50.0)), SECONDS);
    return new HuntingMeasures(judged, spec, run.attempt("hunting")).result();
  }

  private static Measure reversals(TestResult result) {
    return result.measures().stream()
        .filter(m -> m.kind() == MeasureKind.HUNTING_REVERSALS)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void unitsThatCreepMeanwhile() {
    Coverage coverage = new Coverage(List.of(NAME));
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      double size = r.nextDouble(0.3, 1.5);
      double cycle = r.nextDouble(2.0, 12.0);
      double creep = size * r.nextDouble(0.2, 1.0) * (r.nextBoolean() ? 1.0 : -1.0);
      double timeConstant = r.nextDouble(10.0, 60.0);
      DoubleUnaryOperator creeping = t -> creep * Math.exp(-t / timeConstant);
      double noise = r.nextDouble(0.002, 0.01);
      Measure m = reversals(held(r, noise, wave(r, size, cycle, creeping)));
      coverage.add(NAME, m, 120.0 / cycle);
      assertThat(m.budget().orElseThrow().expand().half())
          .as("%s", m)
          .isLessThan(0.25 * 120.0 / cycle);
    }
    coverage.atLeast("coverage-reversals-creep.md", 1, UNITS, 93.0);
  }

  @Test
  void swingsAboutAsSmallAsNoise() {
    Coverage coverage = new Coverage(List.of(NAME));
    int judged = 0;
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      double noise = r.nextDouble(0.015, 0.03);
      double size = noise * r.nextDouble(5.0, 12.0);
      double cycle = r.nextDouble(2.0, 5.0);
      Measure m = reversals(held(r, noise, wave(r, size, cycle, t -> 0.0)));
      if (m.value().isPresent()) {
        judged++;
        coverage.add(NAME, m, 120.0 / cycle);
      } else {
        assertThat(m.note()).contains("noise");
      }
    }
    coverage.atLeast("coverage-reversals-small.md", 1, UNITS / 4, 93.0);
    assertThat(judged).isGreaterThan(UNITS / 4);
  }

  /** 44 turns a minute of 0.14 %, below what readings with a noise of 0.035 % can show. */
  @Test
  void whatHidesBelowTheNoiseIsNotZero() {
    for (int seed = 0; seed < 20; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      Measure hidden = reversals(held(r, 0.035, wave(r, 0.14, 120.0 / 44.0, t -> 0.0)));
      assertThat(hidden.value()).as(hidden.note()).isEmpty();
      assertThat(hidden.note()).contains("noise");
    }
  }

  /** Neither a creep nor one correction is a cycle, and noise is none either. */
  @Test
  void aQuietUnitTurnsNotAtAll() {
    for (int seed = 0; seed < 20; seed++) {
      SplittableRandom r = new SplittableRandom(1_000_003L * seed + 11);
      DoubleUnaryOperator quiet = t -> 50.0 + 0.1 * Math.exp(-t / 20.0) + (t > 33.0 ? 0.0 : 0.1);
      TestResult result = held(r, 0.02, quiet);
      Measure none = reversals(result);
      assertThat(none.value()).as(none.note()).hasValue(0.0);
      assertThat(none.note()).contains("motion of 0.1", "and more");
      assertThat(result.orders().get(0).word()).isEqualTo(Word.PASS);
    }
  }
}
