package org.benchstroke.judge;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.benchstroke.Counted;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Aim.Stroke.Way;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.endurance.Endurance;
import org.benchstroke.tests.supply.SupplyVoltage;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whether the stated 95 % intervals of the drifts over many cycles and of the supply's voltage hold
 * the true value in 93 to 97 % of 2,000 seeded units, as {@link MadeUpRun} reads them.
 */
class CyclesCoverageTest {
  private static final int UNITS = Counted.of(2_000);
  private static final int CYCLES = 10;

  private final RecordFixture fixture = new RecordFixture();

  private static SplittableRandom random(int seed) {
    return new SplittableRandom(1_000_003L * seed + 7);
  }

  /** Strokes that get slower and ends that wander, each with a scatter of its own. */
  @Test
  void endurance() {
    JudgedBench judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()));
    Coverage coverage = new Coverage();
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = random(seed);
      double period = r.nextDouble(0.08, 0.12);
      MadeUpRun run =
          new MadeUpRun(
              r,
              period,
              0.2 * period,
              r.nextDouble(0.002, 0.02),
              r.nextDouble(0.001, 0.02),
              p -> p);
      double slower = r.nextDouble(-2.0, 2.0);
      double wanders = r.nextDouble(-2.0, 2.0);
      double timeScatter = r.nextDouble(0.0, 0.1);
      double endScatter = r.nextDouble(0.0, 0.1);
      double now = 1.0;
      double stood = 0.0;
      run.command(0.0, now, now + 0.005);
      now += 0.01;
      for (int i = 0; i < 2 * CYCLES; i++) {
        boolean opens = i % 2 == 0;
        int cycle = i / 2 + 1;
        double seconds = 14.0 + slower * cycle / 100.0 + timeScatter * r.nextGaussian();
        double end =
            (opens ? 100.0 : 0.0) + wanders * cycle / 100.0 + endScatter * r.nextGaussian();
        double from = now + 0.2 + r.nextDouble() * period;
        double begin = stood;
        // At the speed of the stroke, wherever it ends.
        double speed = (opens ? 100.0 : -100.0) / seconds;
        run.command(opens ? 100.0 : 0.0, now, now + 0.005);
        double rest = from + (end - begin) / speed;
        now =
            run.sample(
                now + 0.01,
                rest + 3.0,
                t -> begin + speed * Math.max(0.0, Math.min(rest - from, t - from)));
        Way way = opens ? Way.OPENING : Way.CLOSING;
        run.rested(
            new Aim.Stroke("endurance", way, cycle, false),
            opens ? 100.0 : 0.0,
            cycle,
            now - 2.0,
            now - 0.001);
        stood = end;
      }
      for (Measure m :
          measures(Endurance.KIND, judged, new Endurance(CYCLES), run.attempt("endurance"))) {
        boolean time = m.kind() == MeasureKind.STROKE_TIME_DRIFT;
        coverage.add(m.kind().title(), m, time ? slower : wanders);
      }
    }
    coverage.check("coverage-endurance.md", 2);
  }

  private static <S extends TestSpec> List<Measure> measures(
      TestKind<S> kind, JudgedBench judged, S spec, Optional<Chapter> attempt) {
    return kind.judge().of(judged, spec, attempt).result().measures();
  }

  /** A meter anywhere within its bounds, a supply that scatters at rest and is steady in motion. */
  @Test
  void supply() throws Exception {
    BenchFile bench = BenchFileReader.read(Path.of("demo-data/benches/type-test-bench.toml"));
    JudgedBench judged =
        JudgedBench.of(bench, fixture.unit(), new RunRecord(fixture.entries, List.of()));
    Coverage coverage = new Coverage(List.of(MeasureKind.SUPPLY_SAG.title()));
    for (int seed = 0; seed < UNITS; seed++) {
      SplittableRandom r = random(seed);
      double rest = r.nextDouble(20.0, 28.0);
      double lowest = rest * r.nextDouble(0.8, 0.98);
      double noise = r.nextDouble(0.001, 0.01);
      double offAtRest = r.nextDouble(-1, 1) * (0.0005 * rest + 0.01);
      double offInMotion = r.nextDouble(-1, 1) * (0.0005 * lowest + 0.01);
      MadeUpRun run = new MadeUpRun(r, 0.1, 0.01, 0.0, 0.0, p -> p);
      for (int i = 0; i < 50; i++) {
        run.volts(1.0 + i * 0.1, rest + offAtRest + noise * r.nextGaussian());
      }
      run.watched(SupplyVoltage.Watch.AT_REST, 35.0, 0.99, 5.99);
      for (int i = 0; i < 20; i++) {
        // One dip that is as deep as it gets; the others are clear of it.
        double volts = i == 10 ? lowest + offInMotion + noise * r.nextGaussian() : rest;
        run.volts(6.0 + i * 0.1, volts);
      }
      for (Measure m :
          measures(SupplyVoltage.KIND, judged, new SupplyVoltage(1), run.attempt("supply"))) {
        double truth =
            switch (m.kind()) {
              case SUPPLY_AT_REST -> rest;
              case SUPPLY_LOWEST -> lowest;
              default -> (rest - lowest) / rest * 100.0;
            };
        coverage.add(m.kind().title(), m, truth);
      }
    }
    coverage.check("coverage-supply.md", 3);
  }
}
