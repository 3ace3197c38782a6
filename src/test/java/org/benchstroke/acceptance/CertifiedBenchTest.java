package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** Whole runs on benches whose instruments have certificates. */
class CertifiedBenchTest {
  private static final Path BENCH = Path.of("demo-data/benches/angle-reference.toml");
  private static final Path EVERY_ROLE = Path.of("demo-data/benches/type-test-bench.toml");
  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "supply"
      starts = 3

      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      """;

  /** What must be added, far more than any data sheet allows: at the lowest and at the highest. */
  private static final Map<String, String> CORRECTIONS =
      Map.of(
          "signal_source", points("mA", 3.5, 20.5, 0.08, 0.0),
          "loop_meter", points("mA", 3.5, 20.5, -0.05, -0.05),
          "position_transmitter", points("mA", 3.5, 20.5, -0.06, 0.02),
          "angle_reference", points("deg", -5.0, 95.0, 0.4, 1.4),
          "supply_meter", points("V", 0.0, 60.0, 0.5, 1.1));

  private static String points(String unit, double at, double to, double first, double last) {
    String drift = unit.equals("deg") ? "0 °" : "0 " + unit;
    StringBuilder points = new StringBuilder("drift_per_year = \"" + drift + "\"\ncertified = [\n");
    for (double share : new double[] {0.0, 0.5, 1.0}) {
      points.append(
          "  { at_%1$s = %2$s, correction_%1$s = %3$s, U_%1$s = 0.001, k = 2 },\n"
              .formatted(unit, at + share * (to - at), first + share * (last - first)));
    }
    return points.append("]\n").toString();
  }

  private static String certified(String bench) {
    String text = bench.replaceAll("(?m)^due = .*$", "$0\ncalibrated_at_c = 23");
    for (Map.Entry<String, String> each : CORRECTIONS.entrySet()) {
      String header = "[instrument." + each.getKey() + "]\n";
      text = text.replace(header, header + each.getValue());
    }
    return text;
  }

  private static JudgedRun judge(String bench) {
    return VirtualBench.with(VirtualBench.simulation("healthy-b"), "bench.toml", bench)
        .tests(TESTS)
        .judge();
  }

  /** A machine whose clock is before the day of a calibration: one of both is wrong. */
  @Test
  void aCalibrationThatIsStillToCome() throws IOException {
    String text = Files.readString(BENCH);
    JudgedRun run = judge(text.replaceAll("(?m)^calibrated = .*$", "calibrated = 2026-06-02"));
    assertThat(run.passed()).isFalse();
    assertThat(run.reason())
        .contains("calibrated on 2026-06-02, after 2026-06-01; set this machine's clock");
  }

  /**
   * Simulated instruments that err as their certificates say, against the same bench without any
   * error of that kind: the judged figures agree; judged without the certificates they do not.
   */
  @Test
  void everyRoleIsCorrected() throws IOException {
    String text = Files.readString(EVERY_ROLE);
    JudgedRun plain = judge(text);
    JudgedRun corrected = judge(certified(text));
    JudgedRun raw =
        Catalogue.judge()
            .judge(corrected.record(), plain.bench(), corrected.unit(), corrected.procedure());
    assertThat(corrected.complete()).as(corrected.reason()).isTrue();
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      String place = "50 % up";
      double is = value(plain, MeasureKind.TRAVEL_ERROR, truth, place);
      assertThat(value(corrected, MeasureKind.TRAVEL_ERROR, truth, place))
          .isCloseTo(is, within(0.12));
      assertThat(Math.abs(value(raw, MeasureKind.TRAVEL_ERROR, truth, place) - is))
          .isGreaterThan(0.3);
    }
    double volts = value(plain, MeasureKind.SUPPLY_AT_REST, Truth.METER, "");
    assertThat(value(corrected, MeasureKind.SUPPLY_AT_REST, Truth.METER, ""))
        .isCloseTo(volts, within(0.03));
    assertThat(value(raw, MeasureKind.SUPPLY_AT_REST, Truth.METER, "")).isLessThan(volts - 0.6);
  }

  private static double value(JudgedRun run, MeasureKind kind, Truth truth, String place) {
    return run.judgements().stream()
        .map(j -> j.measure())
        .filter(m -> m.kind() == kind && m.truth() == truth && m.place().words().equals(place))
        .findFirst()
        .orElseThrow()
        .value()
        .orElseThrow();
  }

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
