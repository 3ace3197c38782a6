package org.benchstroke.core.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.papers.Elsewhere;
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

  @Test
  void anUncertaintyOfNothingIsNeverShown() {
    assertThat(Numbers.within(1.049, 0.468, 2, "%")).isEqualTo("1.05 ± 0.47 %");
    assertThat(Numbers.within(0.0003, 0.0002, 2, "%")).isEqualTo("0.00 %, to within 0.01 %");
    assertThat(Numbers.signedWithin(1.5, 0.0, 1, "mA")).isEqualTo("+1.5 mA, to within 0.1 mA");
    assertThat(Numbers.signedWithin(1.5, Double.NaN, 1, "mA")).isEqualTo("+1.5 ± – mA");
  }

  @Test
  void theArithmeticOfALastBitIsNotShown() {
    assertThat(Numbers.plain(3 * 0.1)).isEqualTo("0.3");
    assertThat(Numbers.plain(0.1 + 0.7)).isEqualTo("0.8");
    assertThat(Numbers.upTo(5.55555555555556, 3)).isEqualTo("5.556");
    assertThat(Numbers.upTo(25.0, 3)).isEqualTo("25");
    assertThat(Numbers.plain(12345.678901234)).isEqualTo("12345.678901234");
  }

  @Test
  void whatIsAskedForIsShorterThanWhatThereIs() {
    for (double present = 0.05; present < 5.0; present *= 1.013) {
      for (double share : new double[] {0.3, 0.9, 0.99, 0.9999}) {
        double asked = Double.parseDouble(Numbers.shorter(present * share, present));
        assertThat(asked)
            .isLessThan(Double.parseDouble(Numbers.significant(present, 2)))
            .isLessThanOrEqualTo(present * share)
            .isGreaterThan(0.8 * present * share);
      }
    }
  }
}
