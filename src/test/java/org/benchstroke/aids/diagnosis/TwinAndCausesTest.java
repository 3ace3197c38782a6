package org.benchstroke.aids.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.judge.JudgedRun;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Nothing is computed twice, and no twin fitted that nobody asks for. */
class TwinAndCausesTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private static JudgedRun run(String unit) throws IOException {
    String text = Files.readString(ROUTINE);
    return VirtualBench.with(unit, BENCH).tests(text.substring(text.indexOf("[[test]]"))).judge();
  }

  @Test
  void eachIsComputedOnce() throws IOException {
    TwinAndCauses aids = new TwinAndCauses(run("zero-shift"));
    assertThat(aids.diagnosis()).isSameAs(aids.diagnosis());
    assertThat(aids.twin()).isSameAs(aids.twin());
    assertThat(aids.diagnosis()).isEqualTo(Diagnosis.of(aids.run()));
  }

  @ParameterizedTest
  @CsvSource({"dead-band-too-small, 1", "zero-shift, 0"})
  void onlyTheAdviceOnTheDeadBandNeedsTheTwin(String unit, int fits) throws IOException {
    JudgedRun run = run(unit);
    List<Twin> fitted = new ArrayList<>();
    Diagnosis.of(
        run,
        Likelihoods.builtIn(),
        () -> {
          fitted.add(Twin.of(run));
          return fitted.get(0);
        });
    assertThat(fitted).hasSize(fits);
  }
}
