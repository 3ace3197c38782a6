package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
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

class DecisionReferenceTest {
  private static final double U = 0.10;
  private static final ErrorDistribution ERRORS = ErrorDistribution.normal(0.05);

  private static Limit limit(OptionalDouble low, OptionalDouble high, double guardFactor) {
    return new Limit(MeasureKind.TRAVEL_ERROR, low, high, new DecisionRule(guardFactor));
  }

  private static Limit symmetric(double limit, double guardFactor) {
    return limit(OptionalDouble.of(-limit), OptionalDouble.of(limit), guardFactor);
  }

  /** Zones: ILAC-G8:09/2019 4.2.3 (seen). The four values are the trade's own scenario. */
  @ParameterizedTest
  @CsvSource({
    "0.88, PASS, 0.992",
    "0.90, PASS, 0.977",
    "0.93, CONDITIONAL_PASS, 0.919",
    "1.00, CONDITIONAL_PASS, 0.500",
    "1.05, CONDITIONAL_FAIL, 0.159",
    "1.15, FAIL, 0.001"
  })
  void fourZonesBothSides(double value, Word word, double probability) {
    for (double sign : new double[] {1.0, -1.0}) {
      Decision decision = Decision.judge(sign * value, U, ERRORS, symmetric(1.0, 1.0));
      assertThat(decision.word()).isEqualTo(word);
      assertThat(decision.probability()).isCloseTo(probability, within(0.0006));
    }
  }

  /** Simple acceptance: ILAC-G8:09/2019 4.2.1 (seen). */
  @ParameterizedTest
  @CsvSource({"0.99, PASS", "1.00, PASS", "1.01, FAIL", "-1.01, FAIL"})
  void simpleAcceptanceHasTwoWords(double value, Word word) {
    assertThat(Decision.judge(value, U, ERRORS, symmetric(1.0, 0.0)).word()).isEqualTo(word);
  }

  @ParameterizedTest
  @CsvSource({"9.8, PASS", "9.95, CONDITIONAL_PASS", "10.05, CONDITIONAL_FAIL", "10.2, FAIL"})
  void oneSidedAbove(double value, Word word) {
    Limit limit = limit(OptionalDouble.empty(), OptionalDouble.of(10.0), 1.0);
    assertThat(Decision.judge(value, U, ERRORS, limit).word()).isEqualTo(word);
    Limit below = limit(OptionalDouble.of(-10.0), OptionalDouble.empty(), 1.0);
    assertThat(Decision.judge(-value, U, ERRORS, below).word()).isEqualTo(word);
  }

  @ParameterizedTest
  @CsvSource({"13.4, FAIL", "13.55, CONDITIONAL_PASS", "15, PASS", "16.59, CONDITIONAL_FAIL"})
  void twoSided(double value, Word word) {
    Limit limit = limit(OptionalDouble.of(13.5), OptionalDouble.of(16.5), 1.0);
    assertThat(Decision.judge(value, 0.09, ErrorDistribution.normal(0.045), limit).word())
        .isEqualTo(word);
  }

  @Test
  void aGuardBandThatEatsTheToleranceLeavesNoPass() {
    ErrorDistribution wide = ErrorDistribution.normal(0.75);
    for (double value = -3.0; value <= 3.0; value += 0.01) {
      assertThat(Decision.judge(value, 1.5, wide, symmetric(1.0, 1.0)).word())
          .isNotEqualTo(Word.PASS);
    }
  }

  @Test
  void whatIsNoNumberIsNoResult() {
    assertThat(Decision.judge(Double.NaN, U, ERRORS, symmetric(1, 1)).word())
        .isEqualTo(Word.NO_RESULT);
    assertThat(Decision.judge(0.0, Double.NaN, ERRORS, symmetric(1, 0)).word())
        .isEqualTo(Word.NO_RESULT);
  }

  /** Source: JCGM 106:2012 7.3.3, 7.4; confidence: from memory, all recomputed. */
  @Test
  void conformanceProbabilities() {
    JsonNode examples =
        ReferenceData.json("jcgm-106-examples.json").get("conformance_probability_examples");
    assertThat(examples).hasSize(3);
    for (JsonNode e : examples) {
      double low = e.get("TL").isNull() ? Double.NEGATIVE_INFINITY : e.get("TL").asDouble();
      double high = e.get("TU").isNull() ? Double.POSITIVE_INFINITY : e.get("TU").asDouble();
      ErrorDistribution errors = ErrorDistribution.normal(e.get("u").asDouble());
      double p = errors.within(e.get("y").asDouble(), low, high);
      assertThat(p)
          .as(e.get("example").asText())
          .isCloseTo(e.get("stated_conformance_probability").asDouble(), within(0.005))
          .isCloseTo(e.get("recomputed").asDouble(), within(1e-9));
    }
  }

  /** Source: ILAC-G8:09/2019, table of rules from memory; the risks are recomputed for U = 2u. */
  @Test
  void specificRiskAtTheAcceptanceLimit() {
    int checked = 0;
    for (Map<String, String> row : ReferenceData.csv("ilac-g8-guard-bands.csv")) {
      String factor = row.get("guard_band_w_in_units_of_U");
      if (!factor.equals("r") && Double.parseDouble(factor) >= 0.0) {
        double guard = Double.parseDouble(factor) * U;
        Limit limit =
            limit(OptionalDouble.empty(), OptionalDouble.of(1.0), Double.parseDouble(factor));
        Decision decision = Decision.judge(1.0 - guard, U, ERRORS, limit);
        double risk = Double.parseDouble(row.get("specific_risk_at_acceptance_limit_recomputed"));
        assertThat(decision.word()).isEqualTo(Word.PASS);
        assertThat(1.0 - decision.probability()).isCloseTo(risk, within(risk * 1e-4));
        checked++;
      }
    }
    assertThat(checked).isEqualTo(5);
  }

  @Test
  void withoutUncertaintyTheValueDecides() {
    assertThat(ErrorDistribution.normal(0.0).within(0.5, -1.0, 1.0)).isEqualTo(1.0);
    assertThat(ErrorDistribution.normal(0.0).within(1.5, -1.0, 1.0)).isZero();
  }

  /**
   * ILAC-G8:09/2019 4.2.2: with w = U a value right at the acceptance limit is beyond the limit in
   * 2.5 %. P and the risk beside it say the same, whatever U rests on.
   */
  @Test
  void probabilityAndRiskAreOfOneDistribution() {
    Component bound = Component.rectangular("bound", 0.2, 1.0);
    Component few = Component.typeA("few readings", 0.1, 2);
    List<Budget> budgets =
        List.of(
            new Budget("%", List.of(bound)),
            new Budget("%", List.of(bound, few)),
            new Budget("%", List.of(few)),
            new Budget("%", List.of(Component.typeA("readings", 0.1, 40))),
            new Budget("%", List.of(bound, few), OptionalDouble.of(0.3)));
    for (Budget budget : budgets) {
      double half = budget.expand().half();
      for (double sign : new double[] {1.0, -1.0}) {
        Limit limit = symmetric(10.0, 1.0);
        Decision worst = Decision.judge(sign * (10.0 - half), half, budget.errors(), limit);
        assertThat(worst.word()).isEqualTo(Word.PASS);
        assertThat(worst.probability()).as("%s", budget).isCloseTo(0.975, within(0.0005));
        assertThat(budget.errors().above(half)).isCloseTo(0.025, within(0.0005));
      }
    }
  }
}
