package org.benchstroke.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.report.Elsewhere;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumbersTest {
  @ParameterizedTest
  @CsvSource({
    "0.125, 2, 0.13",
    "-0.125, 2, -0.13",
    "1.005, 2, 1.01",
    "2.5, 0, 3",
    "-0.0, 2, 0.00",
    "-0.004, 2, 0.00",
    "1e-300, 3, 0.000",
    "1e10, 1, 10000000000.0",
    "NaN, 2, –",
    "Infinity, 2, –"
  })
  void fixedRoundsHalfUpWithoutANegativeZero(double value, int decimals, String text) {
    assertThat(Numbers.fixed(value, decimals)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({"0.5, 1, +0.5", "-0.5, 1, -0.5", "0.04, 1, 0.0", "-0.04, 1, 0.0", "NaN, 1, –"})
  void signedShowsEachSignButZeros(double value, int decimals, String text) {
    assertThat(Numbers.signed(value, decimals)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({"4.0, 4", "4.50, 4.5", "0.02, 0.02", "-0.0, 0", "1200.0, 1200", "1e-7, 0.0000001"})
  void plainIsTheShortest(double value, String text) {
    assertThat(Numbers.plain(value)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({"0.03456, 2, 0.035", "12.34, 2, 12", "0, 2, 0", "1.25, 2, 1.3", "123.4, 2, 123"})
  void significantKeepsTheDigitsThatCount(double value, int digits, String text) {
    assertThat(Numbers.significant(value, digits)).isEqualTo(text);
  }

  @Test
  void noLocaleChangesANumber() {
    assertThat(Elsewhere.call(() -> Numbers.fixed(-1234.5, 2) + " " + Numbers.signed(0.5, 1)))
        .isEqualTo("-1234.50 +0.5");
  }
}
