package org.benchstroke.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.Test;

/** A certificate's figures and a reference's mounting in a bench file, and what follows by hand. */
class CertificateTest {
  private static final String POINTS =
      """
      certified = [
        { at_mA = 4, correction_mA = 0.002, U_mA = 0.0012, k = 2 },
        { at_mA = 12, correction_mA = -0.002, U_mA = 0.0008, k = 2 },
        { at_mA = 20, correction_mA = 0.002, U_mA = 0.0012, k = 2 },
      ]
      """;
  private static final String DRIFT = "drift_per_year = \"0.01 % of reading\"\n";
  private static final String AT = "calibrated_at_c = 22.5\n";
  private static final String MOUNTING =
      """
      [instrument.angle_reference.mounting]
      eccentricity_mm = 0.1
      radius_mm = 50
      zero_deg = 0.2
      coupling_deg = 0.1
      """;

  private static String bench(String top, String instrument, String channel, String mounting) {
    return """
    kind = "bench"
    format = 1
    name = "invented"
    place = "nowhere"
    sample_period_ms = 100
    %s
    [[instrument]]
    name = "source"
    roles = ["signal source"]
    speaks = "typed in"
    serial = "1"
    certificate = "C-1"
    calibrated = 2026-04-11
    due = 2027-04-11
    calibrated_by = "Invented Laboratory"
    %s
    [instrument.signal_source]
    accuracy = "±(0.02 %% of reading + 2 µA)"
    resolution_mA = 0.001
    min_mA = 0.0
    max_mA = 24.0
    %s
    [[instrument]]
    name = "display"
    roles = ["position transmitter"]
    speaks = "typed in"
    serial = "2"
    certificate = "C-2"
    calibrated = 2026-04-11
    due = 2027-04-11
    [instrument.position_transmitter]
    unit = "%%"
    accuracy = "±0.1 %%"
    resolution_pct = 0.1
    scatter_pct = 0.05
    [[instrument]]
    name = "angle"
    roles = ["angle reference"]
    speaks = "typed in"
    serial = "3"
    certificate = "C-3"
    calibrated = 2026-04-11
    due = 2027-04-11
    [instrument.angle_reference]
    accuracy = "±0.05 °"
    resolution_deg = 0.01
    scatter_deg = 0.05
    %s
    """
        .formatted(top, instrument, channel, mounting);
  }

  private static BenchFile read(String text) throws FileMistakes {
    return BenchFileReader.read(TomlDocument.parse("bench", text));
  }

  private static List<InstrumentBounds.Bound> source(BenchFile bench, double milliamps) {
    return InstrumentBounds.of(bench, Role.SIGNAL_SOURCE, Optional.of(LocalDate.of(2026, 9, 4)))
        .orElseThrow()
        .at(milliamps);
  }

  @Test
  void theCertificateTakesThePlaceOfTheDataSheet() throws FileMistakes {
    BenchFile bench = read(bench("", AT, POINTS + DRIFT, ""));
    List<InstrumentBounds.Bound> bounds = source(bench, 8.0);
    assertThat(bounds)
        .extracting(InstrumentBounds.Bound::source)
        .containsExactly(
            "signal source certificate",
            "signal source between certified points",
            "signal source drift");
    Component certificate = bounds.get(0).component(1.0);
    // U of 1.2 and 0.8 µA, k = 2: 0.5 µA in the middle between them.
    assertThat(certificate.standard()).isCloseTo(0.0005, within(1e-12));
    assertThat(certificate.evaluation()).isEqualTo(Component.Evaluation.TYPE_B_NORMAL);
    // The slope turns from −0.5 to +0.5 µA/mA within 8 mA: f″ = 0.125 µA/mA², × 64 mA² ÷ 8 = 1 µA.
    assertThat(bounds.get(1).halfWidth()).isCloseTo(0.001, within(1e-12));
    // 146 days are 0.4 of 365: 0.4 × 0.0001 × 8 mA.
    assertThat(bounds.get(2).halfWidth()).isCloseTo(0.00032, within(1e-12));
    assertThat(bench.instruments().get(0).calibration().laboratory())
        .isEqualTo("Invented Laboratory");
  }

  /** 1.6 mA beyond are a tenth of the 16 mA: 2π/10 of the 3.12 µA that the sheet allows at 5.6. */
  @Test
  void beyondThePointsTheDataSheetCountsMoreAndMore() throws FileMistakes {
    BenchFile bench = read(bench("", AT, POINTS + DRIFT, ""));
    assertThat(source(bench, 3.9999))
        .filteredOn(b -> b.source().endsWith("beyond certified points"))
        .singleElement()
        .satisfies(b -> assertThat(b.halfWidth()).isLessThan(1e-6));
    assertThat(source(bench, 21.6))
        .filteredOn(b -> b.source().endsWith("beyond certified points"))
        .singleElement()
        .satisfies(
            b ->
                assertThat(b.halfWidth())
                    .isCloseTo(2.0 * Math.PI / 10.0 * (0.0002 * 21.6 + 0.002), within(1e-9)));
  }

  /**
   * What the preflight holds source and meter to, before any correction: at 12 mA the correction of
   * 2 µA, twice 0.4 µA of the certificate, 1 µA of the bend and 1.2 µA of a year's drift are more
   * than the 4.4 µA of the sheet; at 20 mA they are 2 + 1.2 + 1 + 2 = 6.2 µA against 6 µA.
   */
  @Test
  void uncorrectedItIsOffByItsCorrectionToo() throws FileMistakes {
    InstrumentBounds bounds =
        InstrumentBounds.of(
                read(bench("", AT, POINTS + DRIFT, "")), Role.SIGNAL_SOURCE, Optional.empty())
            .orElseThrow();
    assertThat(bounds.widest(12.0)).isCloseTo(0.005, within(1e-9));
    assertThat(bounds.widest(20.0)).isCloseTo(0.0062, within(1e-9));
  }

  @Test
  void theTemperatureOfTheCalibrationCounts() throws FileMistakes {
    String ambient = "ambient_c = { min = 20, max = 27.5 }\n";
    String coefficient = "temperature_coefficient = \"0.005 % of reading / K\"\n";
    BenchFile bench = read(bench(ambient, AT, POINTS + DRIFT + coefficient, ""));
    // 27.5 − 22.5 = 5 K: 5 × 0.00005 × 12 mA.
    assertThat(source(bench, 12.0))
        .filteredOn(b -> b.source().equals("signal source temperature"))
        .singleElement()
        .satisfies(b -> assertThat(b.halfWidth()).isCloseTo(0.003, within(1e-12)));
    assertThat(mistakes(bench(ambient, AT, POINTS + DRIFT, "")))
        .containsExactly("instrument[1].signal_source.temperature_coefficient");
  }

  @Test
  void whatIsHalfStatedIsAMistake() {
    assertThat(mistakes(bench("", "", POINTS + DRIFT, "")))
        .containsExactly("instrument[1].calibrated_at_c");
    assertThat(mistakes(bench("", AT, POINTS, "")))
        .containsExactly("instrument[1].signal_source.drift_per_year");
    String falling = POINTS.replace("at_mA = 20", "at_mA = 11");
    assertThat(mistakes(bench("", AT, falling + DRIFT, "")))
        .contains("instrument[1].signal_source.certified[3].at_mA");
    assertThat(mistakes(bench("", AT, POINTS.replace("k = 2", "k = 0.5") + DRIFT, "")))
        .contains("instrument[1].signal_source.certified[1].k");
    String two = POINTS.replaceAll("  \\{ at_mA = 12.*\n", "");
    assertThat(mistakes(bench("", AT, two + DRIFT, "")))
        .containsExactly("instrument[1].signal_source.certified");
    assertThat(mistakes(bench("", "", "", MOUNTING.replace("0.1\nr", "20\nr"))))
        .containsExactly("instrument[3].angle_reference.mounting.eccentricity_mm");
  }

  /**
   * 0.1 mm on a scale of 100 mm across is off by 412 seconds of arc at most: the usual rule of 412
   * ÷ diameter in mm for each µm of eccentricity.
   */
  @Test
  void eccentricityByTheUsualRule() {
    double seconds = new Mounting(0.1, 50.0, 0.0, 0.0).eccentricityDegrees() * 3600.0;
    assertThat(seconds).isCloseTo(412.5, within(0.1));
  }

  /**
   * The law of sines, against the triangle itself: a scale turned about a point beside its middle.
   */
  @Test
  void eccentricityHoldsTheErrorOfEveryTurn() {
    double e = 1.0;
    double r = 20.0;
    double most = 0.0;
    for (int turn = 0; turn < 3600; turn++) {
      double phi = Math.toRadians(turn / 10.0);
      // The middle of the scale goes round the axis; the place where it is read lies at angle 0.
      double x = r * Math.cos(Math.asin(e / r * Math.sin(phi))) + e * Math.cos(phi);
      double angle = Math.atan2(-e * Math.sin(phi), x - e * Math.cos(phi));
      most = Math.max(most, Math.abs(Math.toDegrees(angle)));
    }
    assertThat(most).isCloseTo(new Mounting(e, r, 0, 0).eccentricityDegrees(), within(1e-6));
  }

  @Test
  void theMountingIsInTheBoundsOfTheReferenceAlone() throws FileMistakes {
    BenchFile bench = read(bench("", "", "", MOUNTING));
    assertThat(bounds(bench, Role.ANGLE_REFERENCE))
        .containsExactly(
            "angle reference accuracy",
            "angle reference eccentricity",
            "angle reference zero",
            "angle reference coupling");
    assertThat(bounds(bench, Role.POSITION_TRANSMITTER))
        .containsExactly("position transmitter accuracy");
    assertThat(bounds(read(bench("", "", "", "")), Role.ANGLE_REFERENCE))
        .containsExactly("angle reference accuracy");
  }

  private static List<String> bounds(BenchFile bench, Role role) {
    return InstrumentBounds.of(bench, role, Optional.empty()).orElseThrow().at(10.0).stream()
        .map(InstrumentBounds.Bound::source)
        .toList();
  }

  /** A zero is off alike everywhere and cancels; play counts in full, once for each side. */
  @Test
  void inADifferenceTheZeroCancelsAndThePlayDoesNot() throws FileMistakes {
    BenchFile bench = read(bench("", "", "", MOUNTING));
    UnitType unit = UnitTypeReader.read(Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    InstrumentBudget budget =
        new InstrumentBudget(bench, unit, Role.ANGLE_REFERENCE, Optional.empty());
    List<Component> between = budget.meterBetween(50.0, 50.5);
    assertThat(known(between, "angle reference zero, between both")).isZero();
    assertThat(known(between, "angle reference coupling, between both"))
        .isCloseTo(2.0 * 0.1 / 0.95 / 0.9, within(1e-9));
    // 0.5 % of 90° are 0.45° of a wave of 360°: ± 0.1146° × 0.45 × π/180.
    assertThat(known(between, "angle reference eccentricity, between both"))
        .isCloseTo(0.11459 / 0.95 / 0.9 * Math.toRadians(0.45), within(1e-6));
    List<Component> span = new ArrayList<>();
    budget.meterAccuracy(100.0).forEach(c -> span.add(c.named(c.source() + " at 100 %")));
    budget.meterAccuracy(0.0).forEach(c -> span.add(c.named(c.source() + " at 0 %").times(-1.0)));
    assertThat(known(new Budget("%", span).components(), "angle reference zero, 2 together"))
        .isZero();
    assertThat(known(new Budget("%", span).components(), "angle reference coupling, 2 together"))
        .isCloseTo(2.0 * 0.1 / 0.95 / 0.9, within(1e-9));
  }

  private static double known(List<Component> components, String source) {
    Component one =
        components.stream().filter(c -> c.source().equals(source)).findFirst().orElseThrow();
    return one.known() * Math.abs(one.sensitivity());
  }

  private static List<String> mistakes(String text) {
    return catchThrowableOfType(FileMistakes.class, () -> read(text)).mistakes().stream()
        .map(Mistake::key)
        .toList();
  }
}
