package org.benchstroke.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.archive.ShopHistory.OnBench;

/** What every archive answers to the questions of a statistic. Stateless. */
final class ShopHistoryChecks {
  private static final MadeUpRuns RUNS = new MadeUpRuns(12);

  private ShopHistoryChecks() {}

  /** Job 1: stopped, failed, passed; job 2: passed; one simulated. */
  static void fill(Archive archive) throws ArchiveFault {
    archive.add(Changed.result(Changed.of(RUNS.run(1), "A", "1"), "no result", false, false));
    archive.add(Changed.result(Changed.of(RUNS.run(3), "A", "1"), "fail", true, false));
    archive.add(Changed.result(Changed.of(RUNS.run(4), "A", "1"), "pass", true, true));
    archive.add(Changed.result(Changed.of(RUNS.run(6), "B", "2"), "pass", true, true));
    archive.add(Changed.of(RUNS.run(7), "C", ""));
    archive.add(Changed.simulated(Changed.of(RUNS.run(9), "D", "4")));
  }

  static void realRunsAlone(Archive archive) throws ArchiveFault {
    ShopHistory real = new ShopHistory(archive, RunFilter.ALL, false);
    assertThat(real.runs()).hasSize(5);
    assertThat(real.asFound())
        .extracting(run -> run.labels().serial(), run -> run.result().verdict())
        .containsExactly(tuple("A", "fail"), tuple("B", "pass"));
    // of numbers 3 and 6 the diagnosis named a cause
    assertThat(real.causesAsFound()).containsExactly("zero_shift", "zero_shift");
    assertThat(real.failedAsFound()).isEmpty();
    List<Measured> measured = real.measured("travel_error_pct");
    assertThat(measured).hasSize(5 * 3);
    assertThat(measured.get(0).run()).isEqualTo(real.runs().get(0));
    assertThat(measured.subList(0, 3))
        .extracting(Measured::measure)
        .isEqualTo(
            RUNS.run(1).measures().stream()
                .filter(row -> row.kind().equals("travel_error_pct"))
                .toList());
    assertThat(real.runsWith("S3")).hasSize(2);
    assertThat(real.runsWith("S3'; DROP TABLE run; --")).isEmpty();
    // the newest of bench 1 is simulated, so it is the one before
    assertThat(real.instruments())
        .extracting(OnBench::bench, OnBench::seen)
        .containsExactly(
            tuple("Bench 0", MadeUpRuns.begun(4)),
            tuple("Bench 1", MadeUpRuns.begun(1)),
            tuple("Bench 2", MadeUpRuns.begun(6)),
            tuple("Bench 3", MadeUpRuns.begun(7)));
  }

  static void simulatedRunsAlone(Archive archive) throws ArchiveFault {
    ShopHistory simulated = new ShopHistory(archive, RunFilter.ALL, true);
    assertThat(simulated.asFound()).extracting(r -> r.labels().serial()).containsExactly("D");
    ShopHistory none = new ShopHistory(archive, RunFilter.ofSerial("A"), true);
    assertThat(none.runs()).isEmpty();
    assertThat(none.measured("travel_error_pct")).isEmpty();
  }
}
