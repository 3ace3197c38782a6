package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.ErrorDistribution;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RiskTest {
  private static final int UNITS = 20_000;

  /** Source: computed by a double integral after JCGM 106:2012 9.5; not published numbers. */
  @Test
  void globalRisks() {
    int checked = 0;
    for (Map<String, String> row : ReferenceData.csv("global-risk-table.csv")) {
      double ratio = number(row, "TUR");
      double spread = Risk.spreadFor(number(row, "in_tolerance_probability"));
      Risk simple = Risk.of(ErrorDistribution.normal(0.5 / ratio), 0.0, spread);
      Risk guarded =
          Risk.of(
              ErrorDistribution.normal(0.5 / ratio), 1.0 - number(row, "rss_accept_limit"), spread);
      assertThat(100.0 * simple.consumer())
          .isCloseTo(number(row, "PFA_percent_no_guard"), within(2e-4));
      assertThat(100.0 * simple.producer())
          .isCloseTo(number(row, "PFR_percent_no_guard"), within(2e-4));
      assertThat(100.0 * guarded.consumer())
          .isCloseTo(number(row, "PFA_percent_rss"), within(2e-3));
      checked++;
    }
    assertThat(checked).isGreaterThan(20);
  }

  private static double number(Map<String, String> row, String key) {
    return Double.parseDouble(row.get(key));
  }

  /** Source: ANSI/NCSL Z540.3-2006 5.3 b, TUR; confidence: seen, quoted. */
  @Test
  void accuracyRatio() {
    for (JsonNode e : ReferenceData.json("tur-z540.json").get("examples")) {
      double side = e.get("tolerance_span").asDouble() / 2.0;
      assertThat(limit(side, DecisionRule.GUARD_BAND_U).accuracyRatio(e.get("U95").asDouble()))
          .isCloseTo(e.get("TUR").asDouble(), within(1e-9));
    }
  }

  private static Limit limit(double side, DecisionRule rule) {
    return new Limit(
        MeasureKind.TRAVEL_ERROR, OptionalDouble.of(-side), OptionalDouble.of(side), rule);
  }

  /** Units spread round the limit, judged by the rule itself: as many go wrong as is stated. */
  @ParameterizedTest
  @CsvSource({"0.125, 0, 0.80", "0.125, 1, 0.80", "0.25, 1, 0.90", "0.25, 0.83, 0.68"})
  void falseAcceptsAndRejectsAreAsStated(double u, double factor, double share) {
    ErrorDistribution errors = ErrorDistribution.normal(u);
    Limit limit = limit(1.0, new DecisionRule(factor));
    double spread = Risk.spreadFor(share);
    SplittableRandom random = new SplittableRandom(17);
    int accepts = 0;
    int rejects = 0;
    for (int i = 0; i < UNITS; i++) {
      double truth = spread * random.nextGaussian();
      double read = truth + u * random.nextGaussian();
      Word word = Decision.judge(read, 2.0 * u, errors, limit).word();
      boolean good = Math.abs(truth) <= 1.0;
      accepts += word == Word.PASS && !good ? 1 : 0;
      rejects += word != Word.PASS && good ? 1 : 0;
    }
    Risk stated = Risk.of(errors, factor * 2.0 * u, spread);
    assertThat((double) accepts)
        .isCloseTo(UNITS * stated.consumer(), within(4 * error(stated.consumer())));
    assertThat((double) rejects)
        .isCloseTo(UNITS * stated.producer(), within(4 * error(stated.producer())));
  }

  /** One standard deviation of the count. */
  private static double error(double p) {
    return Math.sqrt(UNITS * p * (1.0 - p)) + 0.5;
  }

  @Test
  void anAgreedWidthIsTheGuardBand() {
    ErrorDistribution errors = ErrorDistribution.normal(0.05);
    Limit limit = limit(1.0, DecisionRule.ofWidth(0.3));
    assertThat(Decision.judge(0.69, 0.1, errors, limit).word()).isEqualTo(Word.PASS);
    assertThat(Decision.judge(0.71, 0.1, errors, limit).word()).isEqualTo(Word.CONDITIONAL_PASS);
    assertThat(Decision.judge(1.29, 0.1, errors, limit).word()).isEqualTo(Word.CONDITIONAL_FAIL);
    assertThat(Decision.judge(1.31, 0.1, errors, limit).word()).isEqualTo(Word.FAIL);
  }

  /** By hand: t with one degree of freedom is Cauchy's, P(t ≤ 1) = 0.75. */
  @Test
  void fewDegreesOfFreedomTakeStudentsDistribution() {
    Budget budget = new Budget("%", List.of(Component.typeA("readings", 0.1, 1.0)));
    Limit limit =
        new Limit(
            MeasureKind.TRAVEL_ERROR,
            OptionalDouble.empty(),
            OptionalDouble.of(1.0),
            DecisionRule.GUARD_BAND_U);
    assertThat(Decision.judge(0.9, 1.27, budget.errors(), limit).probability())
        .isCloseTo(0.75, within(1e-9));
  }
}
