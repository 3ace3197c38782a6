package org.benchstroke.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Temperature and drift in a bench file, and the bounds that follow from them by hand. */
class TemperatureTest {
  private static final String AMBIENT = "ambient_c = { min = 15, max = 30 }\n";
  private static final String REFERENCE = "reference_c = 23\nreference_range_k = 5\n";
  private static final String COEFFICIENT =
      "temperature_coefficient = \"0.005 % of reading / K\"\n";
  private static final String DRIFT = "drift_per_year = \"0.01 % of reading\"\n";

  private static String bench(String top, String instrument, String channel) {
    return """
    kind = "bench"
    format = 1
    name = "invented"
    place = "nowhere"
    sample_period_ms = 100
    %s
    [[instrument]]
    name = "box"
    roles = ["signal source", "position transmitter"]
    speaks = "modbus tcp"
    address = "tcp://127.0.0.1:502"
    unit_id = 1
    reply_timeout_ms = 500
    serial = "1"
    certificate = "C-1"
    calibrated = 2026-04-11
    due = 2027-04-11
    %s
    [instrument.position_transmitter]
    table = "input"
    address = 0
    type = "i16"
    scale = 0.001
    unit = "mA"
    accuracy = "±(0.05 %% of range + 1 µA)"
    resolution_mA = 0.001
    min_mA = 0.0
    max_mA = 24.0
    temperature_coefficient = "0 mA / K"
    [instrument.signal_source]
    table = "holding"
    address = 5
    type = "u16"
    scale = 0.001
    accuracy = "±(0.02 %% of reading + 2 µA)"
    resolution_mA = 0.001
    min_mA = 0.0
    max_mA = 24.0
    %s
    """
        .formatted(top, instrument, channel);
  }

  private static BenchFile read(String text) throws FileMistakes {
    return BenchFileReader.read(TomlDocument.parse("bench", text));
  }

  private static List<InstrumentBounds.Bound> at12(BenchFile bench, Optional<LocalDate> day) {
    return InstrumentBounds.of(bench, Role.SIGNAL_SOURCE, day).orElseThrow().at(12.0);
  }

  @Test
  void boundsByHand() throws FileMistakes {
    BenchFile bench = read(bench(AMBIENT, REFERENCE, COEFFICIENT + DRIFT));
    List<InstrumentBounds.Bound> bounds = at12(bench, Optional.of(LocalDate.of(2026, 9, 4)));
    assertThat(bounds)
        .extracting(InstrumentBounds.Bound::source)
        .containsExactly(
            "signal source accuracy", "signal source temperature", "signal source drift");
    assertThat(bounds.get(0).halfWidth()).isCloseTo(0.0044, within(1e-12));
    // 18 °C − 15 °C = 3 K is more than 30 °C − 28 °C: 3 × 0.00005 × 12 mA.
    assertThat(bounds.get(1).halfWidth()).isCloseTo(0.0018, within(1e-12));
    // 146 days are 0.4 of 365: 0.4 × 0.0001 × 12 mA.
    assertThat(bounds.get(2).halfWidth()).isCloseTo(0.00048, within(1e-12));
    // Not known when: to the last day, 365 days.
    assertThat(at12(bench, Optional.empty()).get(2).halfWidth()).isCloseTo(0.0012, within(1e-12));
  }

  @Test
  void oneNumberWithinTheRangeAddsNothing() throws FileMistakes {
    BenchFile bench = read(bench("ambient_c = 27.5\n", REFERENCE, COEFFICIENT));
    assertThat(at12(bench, Optional.empty()).get(1).halfWidth()).isZero();
  }

  /** The ratio by hand: u of source and meter with and without the two new lines. */
  @Test
  void theAccuracyRatioFallsWithThem() throws FileMistakes {
    UnitType unit =
        UnitTypeReader.read(java.nio.file.Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    Limit limit = unit.limit(MeasureKind.TRAVEL_ERROR).orElseThrow();
    double without =
        new BenchFit(read(bench(AMBIENT, "reference_c = 23\nreference_range_k = 20\n", "")), unit)
            .ratio(limit)
            .ratio();
    BenchFile influenced = read(bench(AMBIENT, REFERENCE, COEFFICIENT + DRIFT));
    BenchFit.AccuracyRatio with = new BenchFit(influenced, unit).ratio(limit);
    assertThat(with.ratio()).isLessThan(without);
    // Worst at 20 mA: 6 µA of the source's sheet and 13 µA of the input's, which may go together as
    // both are of one box; 3 µA of the cold, 2 µA of the year; half a step of 0.5 µA each; ÷ √3,
    // × 6.25 %/mA.
    double together = 6.0 + 13.0;
    double squares = together * together + 3.0 * 3.0 + 2.0 * 2.0 + 2 * 0.5 * 0.5;
    double u = Math.sqrt(squares / 3.0) * 0.00625;
    // k of these rectangles lies between that of one of them and 1.96.
    assertThat(with.uncertaintyPercent() / u).isBetween(1.65, 1.96);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.005 % of reading / K            | 0.005 | 0",
        "±(0.005 % of reading + 0.1 µA) / K| 0.005 | 0.0001",
        "0.005 % rdg/°C                    | 0.005 | 0",
        "0.2 uA per K                      | 0     | 0.0002"
      })
  void coefficientsOfDataSheets(String text, double reading, double constant) {
    assertThat(AccuracyText.parsePerKelvin(text, "mA", 24.0))
        .contains(new Accuracy(reading, 0, 0, constant));
  }

  @ParameterizedTest
  @CsvSource({"0.005 % of reading", "/ K", "0.1 % / K", "5 K"})
  void notACoefficient(String text) {
    assertThat(AccuracyText.parsePerKelvin(text, "mA", 24.0)).isEmpty();
  }

  @Test
  void halfStatedIsAMistake() {
    String needs = "instrument[1].signal_source.temperature_coefficient";
    assertThat(mistakes(bench("", REFERENCE, COEFFICIENT))).contains(needs);
    assertThat(mistakes(bench(AMBIENT, "", COEFFICIENT))).contains(needs);
    // 3 K outside, and nothing says what they do.
    assertThat(mistakes(bench(AMBIENT, REFERENCE, ""))).containsExactly(needs);
    assertThat(mistakes(bench(AMBIENT, "reference_c = 23\n", "")))
        .contains("instrument[1].reference_c");
    assertThat(mistakes(bench("ambient_c = { min = 30, max = 15 }\n", "", "")))
        .contains("ambient_c.max");
    assertThat(mistakes(bench("", "", "drift_per_year = \"some\"\n")))
        .contains("instrument[1].signal_source.drift_per_year");
  }

  private static List<String> mistakes(String text) {
    return catchThrowableOfType(FileMistakes.class, () -> read(text)).mistakes().stream()
        .map(Mistake::key)
        .toList();
  }
}
