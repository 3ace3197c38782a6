package org.benchstroke.unit;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.unit.Practice.RatioGrade;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PracticeTest {
  /** Warned below 4, refused below 1.5: common practice, no source. */
  @ParameterizedTest
  @CsvSource({"1.49, REFUSED", "1.5, LOW", "3.99, LOW", "4.0, GOOD", "Infinity, GOOD"})
  void anAccuracyRatioIsGraded(double ratio, RatioGrade grade) {
    assertThat(Practice.USUAL.grade(ratio)).isEqualTo(grade);
  }
}
