package org.benchstroke.core.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleFunction;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.statistics.LookBack.Fate;
import org.benchstroke.core.statistics.LookBack.Found;
import org.benchstroke.core.statistics.LookBack.Measured;
import org.junit.jupiter.api.Test;

class CountsTest {

  /** Computed with SciPy, binomtest(...).proportion_ci('wilson'). */
  @Test
  void wilsonByAnotherLibrary() {
    for (JsonNode row : ReferenceData.json("statistics-scipy.json").get("wilson")) {
      Yield got =
          share(
              row.get("passed").asInt(), row.get("tested").asInt(), row.get("coverage").asDouble());
      assertThat(got.low()).isCloseTo(row.get("low").asDouble(), within(1e-9));
      assertThat(got.high()).isCloseTo(row.get("high").asDouble(), within(1e-9));
    }
  }

  /**
   * Source: Newcombe, Statistics in Medicine 17 (1998) 857–872, table I, score method, from memory:
   * 81 of 263, 15 of 148, 0 of 20, 1 of 29.
   */
  @Test
  void wilsonOfThePublishedTable() {
    published(81, 263, 0.2553, 0.3662);
    published(15, 148, 0.0624, 0.1605);
    published(0, 20, 0.0, 0.1611);
    published(1, 29, 0.0061, 0.1718);
  }

  private static void published(int passed, int tested, double low, double high) {
    Yield got = share(passed, tested, 0.95);
    assertThat(got.low()).isCloseTo(low, within(5.1e-5));
    assertThat(got.high()).isCloseTo(high, within(5.1e-5));
  }

  @Test
  void ofNoUnitsThereIsNoShare() {
    assertThat(Yield.of(0, 0, 0.95)).isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 0, 1));
    assertThatThrownBy(() -> Yield.of(3, 2, 0.95)).hasMessageContaining("3 of 2");
  }

  @Test
  void causesByCountAndThenByTheirOrder() {
    List<String> seen =
        new ArrayList<>(List.of("slack", "zero", "cam", "slack", "zero", "slack", "bow", "cam"));
    Pareto<String> expected =
        new Pareto<>(
            List.of(
                new Pareto.Row<>("slack", 3, 3 / 8.0, 3 / 8.0),
                new Pareto.Row<>("cam", 2, 2 / 8.0, 5 / 8.0),
                new Pareto.Row<>("zero", 2, 2 / 8.0, 7 / 8.0),
                new Pareto.Row<>("bow", 1, 1 / 8.0, 1.0)));
    SplittableRandom random = new SplittableRandom(10);
    for (int i = 0; i < 50; i++) {
      Collections.swap(seen, random.nextInt(8), random.nextInt(8));
      assertThat(Pareto.of(seen)).isEqualTo(expected);
    }
    assertThat(Pareto.of(List.<String>of()).rows()).isEmpty();
  }

  /** Limit ±1, U = 0.1: the four words of ILAC-G8:09/2019 4.2.3, as the scenario of the verdict. */
  private static String rule(double value) {
    double off = Math.abs(value);
    if (off <= 0.9) {
      return "pass";
    }
    return off <= 1.0 ? "conditional pass" : off <= 1.1 ? "conditional fail" : "fail";
  }

  @Test
  void aVerdictIsKeptChangedOrUndecided() {
    List<Measured<String>> measures =
        List.of(
            measured("kept", "meter", 0.5),
            measured("undecided", "meter", 0.85),
            measured("changed", "meter", 0.95),
            measured("failed", "meter", -1.5),
            measured("other", "clock", 0.85));
    LookBack<String> back = LookBack.of(measures, new LookBack.FoundError("meter", -0.2));
    assertThat(back.found())
        .extracting(Found::fate)
        .containsExactly(Fate.KEPT, Fate.UNDECIDED, Fate.CHANGED, Fate.KEPT, Fate.NOT_TOUCHED);
    Found<String> undecided = back.of(Fate.UNDECIDED).get(0);
    assertThat(undecided.before()).isEqualTo("pass");
    assertThat(undecided.lower()).isEqualTo("pass");
    assertThat(undecided.higher()).isEqualTo("conditional fail");
    Found<String> changed = back.of(Fate.CHANGED).get(0);
    assertThat(changed.lower()).isEqualTo("pass");
    assertThat(changed.higher()).isEqualTo("fail");
  }

  @Test
  void aLargeErrorLeavesAFailUndecidedThoughBothEndsFail() {
    LookBack<String> back =
        LookBack.of(List.of(measured("x", "meter", 1.2)), new LookBack.FoundError("meter", 3.0));
    Found<String> found = back.found().get(0);
    assertThat(found.lower()).isEqualTo("fail");
    assertThat(found.higher()).isEqualTo("fail");
    assertThat(found.kindest()).isEqualTo("pass");
    assertThat(found.fate()).isEqualTo(Fate.UNDECIDED);
  }

  @Test
  void withOneLimitTheBestIsFarAway() {
    DoubleFunction<String> atMost = value -> value <= 15.0 ? "pass" : "fail";
    Measured<String> time = new Measured<>("t", "clock", 16.0, Double.NEGATIVE_INFINITY, atMost);
    assertThat(
            LookBack.of(List.of(time), new LookBack.FoundError("clock", 0.5)).found().get(0).fate())
        .isEqualTo(Fate.KEPT);
    assertThat(
            LookBack.of(List.of(time), new LookBack.FoundError("clock", 1.5)).found().get(0).fate())
        .isEqualTo(Fate.UNDECIDED);
    assertThatThrownBy(() -> new LookBack.FoundError("clock", Double.NaN))
        .hasMessageContaining("a number");
  }

  /** No error: nothing changes. Over values and sizes: what is kept is so with any part of it. */
  @Test
  void whatIsKeptIsSoWithAnyPartOfTheError() {
    SplittableRandom random = new SplittableRandom(11);
    int kept = 0;
    for (int i = 0; i < 2000; i++) {
      Measured<String> m = measured("m", "meter", 3.0 * random.nextDouble() - 1.5);
      double size = 2.0 * random.nextDouble();
      Found<String> found =
          LookBack.of(List.of(m), new LookBack.FoundError("meter", size)).found().get(0);
      if (found.fate() == Fate.KEPT) {
        kept++;
        for (double part = -1.0; part <= 1.0; part += 0.05) {
          assertThat(rule(m.value() + part * size)).isEqualTo(found.before());
        }
      }
      assertThat(LookBack.of(List.of(m), new LookBack.FoundError("meter", 0.0)).of(Fate.KEPT))
          .hasSize(1);
    }
    assertThat(kept).isGreaterThan(100);
  }

  private static Measured<String> measured(String id, String knownBy, double value) {
    return new Measured<>(id, knownBy, value, 0.0, CountsTest::rule);
  }

  private static Yield share(int passed, int tested, double coverage) {
    return (Yield) Yield.of(passed, tested, coverage);
  }
}
