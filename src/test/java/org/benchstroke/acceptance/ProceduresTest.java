package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.judge.Word;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The procedures of the demo data, whole, on a sound simulated unit with every instrument. */
class ProceduresTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");

  @ParameterizedTest
  @ValueSource(strings = {"routine-acceptance", "short-check", "full-type-test", "endurance"})
  void aSoundUnitPasses(String name) throws Exception {
    String text = Files.readString(Path.of("demo-data/procedures", name + ".toml"));
    JudgedRun run =
        VirtualBench.with("healthy-b", BENCH)
            .tests(text.substring(text.indexOf("[[test]]")))
            // A short check takes no linearity, and whatever is limited must be measured.
            .unitType(
                type ->
                    type.replaceAll("(?s)\\[limits].*", "")
                        + "[limits]\ntravel_error_pct = 1.0\nstroke_time_opening_s = 16.5\n")
            .judge();
    assertThat(run.tests()).extracting(TestSummary::outcome).containsOnly("complete");
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
    assertThat(run.judgements()).allMatch(j -> j.limit().isEmpty() || j.word().isPresent());
  }
}
