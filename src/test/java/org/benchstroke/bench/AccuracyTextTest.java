package org.benchstroke.bench;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.core.quantity.Accuracy;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Accuracies as data sheets print them. */
class AccuracyTextTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "±(0.02 % of reading + 2 µA) | mA | 0.02 | 0   | 0  | 0.002",
        "±(0.02% rdg + 2 uA)         | mA | 0.02 | 0   | 0  | 0.002",
        "0.01 % of reading + 0.001 mA| mA | 0.01 | 0   | 0  | 0.001",
        "±0.1 % of span              | mA | 0    | 0.1 | 16 | 0",
        "±0.05 % FS                  | mA | 0    | 0.05| 16 | 0",
        "+/- 0.05 % of range         | mA | 0    | 0.05| 16 | 0",
        "±0.05 °                     | deg| 0    | 0   | 0  | 0.05",
        "0.1 deg                     | deg| 0    | 0   | 0  | 0.1",
        "±0.1 %                      | %  | 0    | 0   | 0  | 0.1"
      })
  void dataSheetFormsAreRead(
      String text, String unit, double reading, double ofRange, double range, double constant) {
    assertThat(AccuracyText.parse(text, unit, 16.0))
        .contains(new Accuracy(reading, ofRange, range, constant));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "good            | mA",
        "0.1 %           | mA",
        "2 mV            | mA",
        "2 µA            | deg",
        "1.2.3 mA        | mA",
        "0.02 % of + 2 µA| mA",
        "0.1 + + 2 mA    | mA",
        "-2 µA           | mA"
      })
  void whatMeansNothingForTheUnitIsRefused(String text, String unit) {
    assertThat(AccuracyText.parse(text, unit, 16.0)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"NaN", "0"})
  void aShareOfARangeNeedsTheRange(double range) {
    assertThat(AccuracyText.parse("0.1 % of span", "mA", range)).isEmpty();
  }
}
