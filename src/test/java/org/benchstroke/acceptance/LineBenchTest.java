package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Event;
import org.benchstroke.run.RunEnded;
import org.junit.jupiter.api.Test;

/** A whole run on a bench whose instruments all speak protocols of their own, from a file alone. */
class LineBenchTest {
  private static final Path BENCH = Path.of("demo-data/benches/line-bench.toml");

  @Test
  void aWholeRunOnInstrumentsOfAFile() {
    VirtualBench bench = VirtualBench.with("slack-after-sensor", BENCH);
    JudgedRun run = bench.judge();
    assertThat(bench.result().reason()).isEqualTo("all tests of the procedure are done");
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(bench.result().safe().confirmed()).isTrue();
    assertThat(run.stemProven()).isTrue();
    assertThat(run.sentences()).anyMatch(f -> f.contains("slack after the sensor"));
    assertThat(run.feedback())
        .hasSize(8)
        .allSatisfy(r -> assertThat(Math.abs(r.errorPercent())).isLessThan(0.15))
        .extracting(RestReading::samples)
        .allMatch(n -> n == 20);
    assertThat(run.record().events(Event.Faulted.class)).isEmpty();
    assertThat(run.record().events(Event.Identified.class).filter(Event.Identified::matches))
        .hasSize(2);
  }
}
