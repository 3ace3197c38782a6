package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.LongFunction;
import java.util.stream.LongStream;
import org.benchstroke.Counted;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whole runs over many seeds: a seed draws the noise of the unit and of its instruments, and the
 * errors that each instrument keeps.
 */
class SeedsTest {
  private static final int HEALTHY_SEEDS = Counted.of(1000);
  private static final int FAULTY_SEEDS = Counted.of(40);
  private static final int THREADS = 2;

  private static ExecutorService threads;

  @BeforeAll
  static void start() {
    threads = Executors.newFixedThreadPool(THREADS);
  }

  @AfterAll
  static void stop() {
    threads.shutdownNow();
  }

  /**
   * One travel error against what the simulator knows.
   *
   * @param measuredPercent the error e that was reported
   * @param halfPercent its U
   * @param truePercent the true feedback less the true signal, % of travel
   */
  private record Compared(double measuredPercent, double halfPercent, double truePercent) {
    boolean covered() {
      return Math.abs(measuredPercent - truePercent) <= halfPercent;
    }
  }

  private record Healthy(long seed, boolean passed, String reason, List<Compared> errors) {}

  private record Faulty(long seed, boolean passed, Word verdict) {}

  @Test
  void aHealthyUnitAlwaysPassesAndTheUncertaintyCoversTheTruth() throws Exception {
    Simulation simulation = VirtualBench.simulation("healthy-b");

    List<Healthy> runs = each(HEALTHY_SEEDS, seed -> healthy(simulation, seed));

    assertThat(runs).hasSize(HEALTHY_SEEDS);
    assertThat(runs).allSatisfy(run -> assertThat(run.passed()).as(run.toString()).isTrue());
    assertThat(runs)
        .allSatisfy(
            run ->
                assertThat(run.errors())
                    .hasSize(8)
                    .allSatisfy(
                        e -> assertThat(Math.abs(e.measuredPercent())).isLessThanOrEqualTo(0.12)));
    List<Compared> all = runs.stream().flatMap(run -> run.errors().stream()).toList();
    double covered = all.stream().filter(Compared::covered).count() / (double) all.size();
    // U is stated for 95 %: JCGM 100:2008, 6.2 and annex G.
    assertThat(covered).isGreaterThanOrEqualTo(0.93);
    // And an interval that is merely wide would prove nothing: half of it or more is how the unit
    // scattered in three approaches each way, with four degrees of freedom.
    // Rests of two seconds can't exclude a slow creep in each of them, which then is in U.
    assertThat(all).allSatisfy(e -> assertThat(e.halfPercent()).isBetween(0.005, 0.40));
    double narrow = all.stream().filter(e -> e.halfPercent() <= 0.20).count();
    assertThat(narrow / all.size()).isGreaterThanOrEqualTo(0.95);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "cam-set-short",
        "loop-resistance-too-high",
        "reversed-action",
        "slack-after-sensor",
        "span-error",
        "wrong-fail-action",
        "zero-shift"
      })
  void aFaultyUnitNeverPasses(String name) throws Exception {
    Simulation simulation = VirtualBench.simulation(name);

    List<Faulty> runs = each(FAULTY_SEEDS, seed -> faulty(simulation, seed));

    assertThat(runs).hasSize(FAULTY_SEEDS);
    assertThat(runs)
        .allSatisfy(
            run -> {
              assertThat(run.passed()).as(run.toString()).isFalse();
              assertThat(run.verdict()).as(run.toString()).isNotEqualTo(Word.PASS);
            });
  }

  private static Healthy healthy(Simulation simulation, long seed) {
    VirtualBench bench = VirtualBench.with(simulation.withSeed(seed));
    TruthAtRest truth = new TruthAtRest(bench);
    JudgedRun run = VirtualBench.judge(bench.watchedBy(truth).run());
    List<Compared> errors = new ArrayList<>();
    for (Judgement judgement : run.judgements()) {
      Measure measure = judgement.measure();
      if (measure.kind() == MeasureKind.TRAVEL_ERROR && truth.asked(measure)) {
        errors.add(
            new Compared(
                measure.value().orElseThrow(),
                measure.budget().orElseThrow().expand().half(),
                truth.error(measure)));
      }
    }
    return new Healthy(seed, run.passed(), run.reason(), errors);
  }

  private static Faulty faulty(Simulation simulation, long seed) {
    JudgedRun run = VirtualBench.with(simulation.withSeed(seed)).judge();
    return new Faulty(seed, run.passed(), run.verdict());
  }

  private static <T> List<T> each(int seeds, LongFunction<T> work)
      throws InterruptedException, ExecutionException {
    List<Future<T>> futures =
        LongStream.rangeClosed(1, seeds)
            .mapToObj(seed -> threads.submit(() -> work.apply(seed)))
            .toList();
    List<T> results = new ArrayList<>();
    for (Future<T> future : futures) {
      results.add(future.get());
    }
    return results;
  }
}
