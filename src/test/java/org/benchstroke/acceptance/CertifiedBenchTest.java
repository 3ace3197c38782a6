package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.uncertainty.Component;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Measure;
import org.benchstroke.verdict.Truth;
import org.junit.jupiter.api.Test;

/** A whole run on the demo bench whose source has a certificate and whose reference is mounted. */
class CertifiedBenchTest {
  private static final Path BENCH = Path.of("demo-data/benches/angle-reference.toml");

  @Test
  void theCertificateAndTheMountingAreInTheBudgets() {
    VirtualBench bench = VirtualBench.with("healthy-b", BENCH);
    bench.run();
    JudgedRun run = bench.judge();
    assertThat(run.passed()).as(run.reason()).isTrue();
    assertThat(sources(run, MeasureKind.TRAVEL_ERROR, Truth.FEEDBACK))
        .contains("signal source certificate", "position transmitter accuracy")
        .doesNotContain("signal source accuracy");
    assertThat(sources(run, MeasureKind.TRAVEL_ERROR, Truth.STEM))
        .contains(
            "angle reference eccentricity", "angle reference zero", "angle reference coupling");
    assertThat(sources(run, MeasureKind.QUADRANT, Truth.STEM))
        .contains(
            "angle reference eccentricity", "angle reference zero", "angle reference coupling");
  }

  private static List<String> sources(JudgedRun run, MeasureKind kind, Truth truth) {
    Measure measure =
        run.judgements().stream()
            .map(j -> j.measure())
            .filter(m -> m.kind() == kind && m.truth() == truth && m.value().isPresent())
            .findFirst()
            .orElseThrow();
    return measure.budget().orElseThrow().components().stream().map(Component::source).toList();
  }
}
