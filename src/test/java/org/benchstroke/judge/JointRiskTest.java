package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.ErrorDistribution;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class JointRiskTest {
  private static final double STANDARD = 0.1;
  private static final Limit LIMIT =
      new Limit(
          MeasureKind.TRAVEL_ERROR,
          OptionalDouble.of(-1.0),
          OptionalDouble.of(1.0),
          DecisionRule.GUARD_BAND_U);

  /**
   * The usual worked example of many statements at once: each wrong with 5 %, twenty of them are at
   * least once wrong with 64 % if independent (1 − 0.95²⁰) and 100 % by Bonferroni's bound, ten
   * with 40 % and 50 %. In any text on multiple comparisons.
   */
  @ParameterizedTest
  @CsvSource({"10, 0.401263, 0.5", "20, 0.641514, 1.0"})
  void manyStatementsAtOnce(int count, double independent, double bound) {
    JointRisk risk =
        JointRisk.of(Collections.nCopies(count, judged(0.0, Word.PASS, 0.95))).orElseThrow();
    assertThat(risk.wrongPassIfIndependent()).isCloseTo(independent, within(1e-6));
    assertThat(risk.wrongPassAtMost()).isCloseTo(bound, within(1e-9));
    assertThat(risk.allIfIndependent()).isCloseTo(1.0 - independent, within(1e-6));
    assertThat(risk.allAtLeast()).isCloseTo(1.0 - bound, within(1e-9));
    assertThat(risk.allAtMost()).isCloseTo(0.95, within(1e-9));
    assertThat(risk.values()).isEqualTo(count);
    assertThat(risk.limits()).isEqualTo(1);
  }

  /** ILAC-G8:09/2019 4.2.2: 2.5 % for each that only just passes with a guard band of U. */
  @Test
  void passesThatOnlyJustPassedAddUp() {
    JointRisk risk =
        JointRisk.of(Collections.nCopies(4, judged(0.0, Word.PASS, 0.999))).orElseThrow();
    assertThat(risk.wrongPassWorst().orElseThrow()).isCloseTo(0.1, within(1e-3));
    assertThat(risk.wrongPassAtMost()).isCloseTo(0.004, within(1e-9));
  }

  /** Only a pass can be a wrong pass; all that has a value can fail to conform. */
  @Test
  void aFailIsNoWrongPass() {
    JointRisk risk =
        JointRisk.of(List.of(judged(0.0, Word.PASS, 0.99), judged(1.5, Word.FAIL, 0.001)))
            .orElseThrow();
    assertThat(risk.passes()).isEqualTo(1);
    assertThat(risk.wrongPassAtMost()).isCloseTo(0.01, within(1e-9));
    assertThat(risk.allAtLeast()).isZero();
    assertThat(risk.allAtMost()).isCloseTo(0.001, within(1e-9));
  }

  @Test
  void withoutALimitThereIsNone() {
    Judgement free =
        new Judgement(
            judged(0.0, Word.PASS, 0.9).measure(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty());
    assertThat(JointRisk.of(List.of(free))).isEmpty();
  }

  /**
   * Truth drawn around what was measured, with errors that share nothing, most, or oppose each
   * other: the bounds hold in all of them, the product where nothing is shared.
   */
  @ParameterizedTest
  @CsvSource({"0.0, 1", "0.9, 1", "0.9, -1"})
  void theBoundHoldsWhateverTheErrorsShare(double share, int opposed) {
    double[] values = {0.75, -0.8, 0.8, 0.78, -0.76, 0.3};
    List<Judgement> judgements = new ArrayList<>();
    for (double v : values) {
      Decision decision =
          Decision.judge(v, 1.96 * STANDARD, ErrorDistribution.normal(STANDARD), LIMIT);
      judgements.add(judged(v, decision.word(), decision.probability()));
    }
    JointRisk risk = JointRisk.of(judgements).orElseThrow();
    assertThat(risk.passes()).isEqualTo(values.length);
    Random random = new Random(106);
    int draws = 200_000;
    int wrong = 0;
    for (int i = 0; i < draws; i++) {
      double common = random.nextGaussian() * Math.sqrt(share);
      boolean one = false;
      for (int j = 0; j < values.length; j++) {
        double sign = j % 2 == 0 ? 1 : opposed;
        double error = STANDARD * (sign * common + Math.sqrt(1.0 - share) * random.nextGaussian());
        one |= Math.abs(values[j] - error) > 1.0;
      }
      wrong += one ? 1 : 0;
    }
    double seen = (double) wrong / draws;
    double chance = 3.0 * Math.sqrt(seen / draws);
    assertThat(seen).isLessThan(risk.wrongPassAtMost() + chance);
    assertThat(1.0 - seen).isBetween(risk.allAtLeast() - chance, risk.allAtMost() + chance);
    if (share == 0.0) {
      assertThat(seen).isCloseTo(risk.wrongPassIfIndependent(), within(chance));
    }
  }

  private static Judgement judged(double value, Word word, double probability) {
    Component stated =
        new Component(
            "stated", Component.Evaluation.TYPE_B_NORMAL, STANDARD, 1.0, Double.POSITIVE_INFINITY);
    Measure measure =
        new Measure(
            LIMIT.measure(),
            Location.whole(),
            Truth.FEEDBACK,
            Optional.of(value),
            Optional.of(new Budget("%", List.of(stated))),
            "m/1",
            "",
            Scope.UNIT);
    return new Judgement(
        measure, Optional.of(LIMIT), Optional.of(word), OptionalDouble.of(probability));
  }
}
