package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

class LimitRiskTest {
  @Test
  void theWidestUncertaintyOfALimitCounts() {
    Limit limit = both(DecisionRule.GUARD_BAND_U);
    List<LimitRisk> risks =
        LimitRisk.of(List.of(at(limit, "a", 0.05), at(limit, "b", 0.1), at(limit, "c", 0.02)));
    assertThat(risks).hasSize(1);
    assertThat(risks.get(0).widest().measure().place().words()).isEqualTo("b");
    assertThat(risks.get(0).half()).isCloseTo(0.196, within(0.001));
    assertThat(risks.get(0).ratio()).isCloseTo(1.0 / 0.196, within(0.01));
  }

  /** ILAC-G8:09/2019 4.2.2: less than 2.5 % with a guard band of U; 4.2.1: up to 50 % without. */
  @Test
  void aPassAtTheAcceptanceLimitIsTheWorst() {
    LimitRisk guarded = risk(both(DecisionRule.GUARD_BAND_U), 0.1);
    assertThat(guarded.falseAccept().orElseThrow()).isCloseTo(0.025, within(1e-4));
    assertThat(guarded.falseReject()).isCloseTo(0.025, within(1e-4));
    LimitRisk simple = risk(both(DecisionRule.SIMPLE_ACCEPTANCE), 0.1);
    assertThat(simple.falseAccept().orElseThrow()).isCloseTo(0.5, within(1e-6));
    assertThat(simple.all().orElseThrow().consumer())
        .isGreaterThan(guarded.all().orElseThrow().consumer());
  }

  @Test
  void aGuardBandThatEatsTheToleranceLeavesNothingToPassIn() {
    assertThat(risk(both(DecisionRule.GUARD_BAND_U), 0.6).falseAccept()).isEmpty();
  }

  @Test
  void aLimitWithOneSideHasNoRiskAmongAllUnits() {
    Limit most =
        new Limit(
            MeasureKind.DEAD_TIME,
            OptionalDouble.empty(),
            OptionalDouble.of(0.5),
            DecisionRule.GUARD_BAND_U);
    LimitRisk risk = risk(most, 0.05);
    assertThat(risk.all()).isEmpty();
    assertThat(risk.falseAccept().orElseThrow()).isCloseTo(0.025, within(1e-4));
  }

  @Test
  void whatHasNoValueOrNoLimitIsLeftOut() {
    Limit limit = both(DecisionRule.GUARD_BAND_U);
    Measure none =
        Measures.none(limit.measure(), Location.whole(), Truth.FEEDBACK, "m/1", "no value");
    Judgement missing =
        new Judgement(
            none, Optional.of(limit), Optional.of(Word.NO_RESULT), OptionalDouble.empty());
    Judgement free =
        new Judgement(
            at(limit, "", 0.1).measure(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty());
    assertThat(LimitRisk.of(List.of(missing, free))).isEmpty();
  }

  private static LimitRisk risk(Limit limit, double standard) {
    return LimitRisk.of(List.of(at(limit, "", standard))).get(0);
  }

  private static Limit both(DecisionRule rule) {
    return new Limit(
        MeasureKind.TRAVEL_ERROR, OptionalDouble.of(-1.0), OptionalDouble.of(1.0), rule);
  }

  private static Judgement at(Limit limit, String place, double standard) {
    Component stated =
        new Component(
            "stated", Component.Evaluation.TYPE_B_NORMAL, standard, 1.0, Double.POSITIVE_INFINITY);
    Measure measure =
        new Measure(
            limit.measure(),
            Locations.of(place),
            Truth.FEEDBACK,
            Optional.of(0.1),
            Optional.of(new Budget("%", List.of(stated))),
            "m/1",
            "",
            Scope.UNIT);
    return new Judgement(
        measure, Optional.of(limit), Optional.of(Word.PASS), OptionalDouble.of(0.99));
  }
}
