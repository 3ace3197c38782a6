package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.papers.SamplesCsv;
import org.junit.jupiter.api.Test;

/** The trace in the demo data is what the simulator makes of a sound unit. */
class RecordedDemoTest {
  private static final String TESTS =
      """

      [[test]]
      test = "stroke time"
      repeats = 1

      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      """;

  /** The file says in itself what it is. */
  private static final String MARK =
      "# Invented demo data: a trace of a simulated unit, of no real one.\r\n";

  @Test
  void theTraceIsTheSimulators() throws IOException {
    String made = MARK + SamplesCsv.text(VirtualBench.with("healthy-b").tests(TESTS).run());
    // To take over after a change of the simulator.
    Files.writeString(Path.of("target/trace.csv"), made);
    assertThat(Path.of("demo-data/recorded/trace.csv")).content().isEqualTo(made);
  }
}
