package org.benchstroke.core.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.statistics.Capability.Index;
import org.junit.jupiter.api.Test;

class CapabilityReferenceTest {
  private static final double COVERAGE = 0.95;

  /** Source: NIST/SEMATECH e-Handbook 6.1.6, limits 8 and 20, mean 16, s 2; results seen quoted. */
  @Test
  void indicesOfTheHandbook() {
    JsonNode stated =
        ReferenceData.json("nist-handbook-control-charts.json").get("capability_6_1_6");
    Scale scale = new Scale(stated.get("mean").asDouble(), stated.get("s").asDouble(), 49.0);
    double low = stated.get("LSL").asDouble();
    double high = stated.get("USL").asDouble();
    Tolerance both = Tolerance.between(low, high);
    assertThat(Capability.spread(scale, both, COVERAGE).orElseThrow().value())
        .isCloseTo(stated.get("Cp").asDouble(), within(5e-5));
    assertThat(Capability.nearest(scale, 50, both, COVERAGE).value())
        .isCloseTo(stated.get("Cpk").asDouble(), within(5e-5));
    assertThat(Capability.nearest(scale, 50, Tolerance.atMost(high), COVERAGE).value())
        .isCloseTo(stated.get("Cpu").asDouble(), within(5e-5));
    assertThat(Capability.nearest(scale, 50, Tolerance.atLeast(low), COVERAGE).value())
        .isCloseTo(stated.get("Cpl").asDouble(), within(5e-5));
    assertThat(Capability.spread(scale, Tolerance.atMost(high), COVERAGE)).isEmpty();
  }

  /** Source: Montgomery, piston rings, limits 73.95 and 74.05 mm; data seen, results quoted. */
  @Test
  void pistonRings() {
    JsonNode recomputed =
        ReferenceData.json("montgomery-piston-rings-results.json").get("recomputed");
    JsonNode computed = ReferenceData.json("statistics-scipy.json").get("piston_ring_pp");
    Capability rings =
        capability(
            Capability.ofSubgroups(
                ChartReferenceTest.pistonRings(25), Tolerance.between(73.95, 74.05), COVERAGE));
    // d2 of five is 2.325929; the reference rounds it to 2.326
    assertThat(rings.within()).isCloseTo(recomputed.get("sigma_hat").asDouble(), within(1e-6));
    assertThat(rings.cp().orElseThrow().value())
        .isCloseTo(recomputed.get("Cp").asDouble(), within(1e-4));
    assertThat(rings.cpk().value())
        .isCloseTo(recomputed.get("Cpk_73.95_74.05").asDouble(), within(1e-4));
    assertThat(rings.overall()).isCloseTo(recomputed.get("s_overall").asDouble(), within(1e-12));
    Index pp = rings.pp().orElseThrow();
    assertThat(pp.value()).isCloseTo(computed.get("pp").asDouble(), within(1e-9));
    assertThat(pp.low()).isCloseTo(computed.get("low").asDouble(), within(1e-6));
    assertThat(pp.high()).isCloseTo(computed.get("high").asDouble(), within(1e-6));
    assertThat(rings.basis()).isEqualTo(Capability.Basis.NORMAL);
  }

  /** Source: Quality Digest, May 2000, last word; seen: n = 45, Cpk 1.15, 95 %: 0.89 to 1.41. */
  @Test
  void intervalOfCpk() {
    Scale scale = new Scale(0.0, 1.0, 44.0);
    Index index = Capability.nearest(scale, 45, Tolerance.atMost(3.45), COVERAGE);
    assertThat(index.value()).isCloseTo(1.15, within(1e-12));
    assertThat(index.low()).isCloseTo(0.89, within(0.005));
    assertThat(index.high()).isCloseTo(1.41, within(0.005));
  }

  /**
   * Source: Montgomery, Introduction to Statistical Quality Control, n = 20, s = 1.75, limits 38
   * and 62; from memory: Cp 2.29, 95 %: 1.57 to 3.01.
   */
  @Test
  void intervalOfCp() {
    Scale scale = new Scale(50.0, 1.75, 19.0);
    Index index = Capability.spread(scale, Tolerance.between(38, 62), COVERAGE).orElseThrow();
    assertThat(index.value()).isCloseTo(2.29, within(0.005));
    // the book goes on with the rounded 2.29
    double rounded = 2.29 / index.value();
    assertThat(index.low() * rounded).isCloseTo(1.57, within(0.005));
    assertThat(index.high() * rounded).isCloseTo(3.01, within(0.005));
  }

  /** Over seeds: the intervals hold the true index 95 times in 100, by all and from one to next. */
  @Test
  void intervalsHoldTheTrueIndex() {
    SplittableRandom random = new SplittableRandom(8);
    Tolerance tolerance = Tolerance.between(-4.0, 4.0);
    int runs = 4000;
    int[] held = new int[4];
    for (int run = 0; run < runs; run++) {
      Capability c =
          capability(
              Capability.ofIndividuals(ChartPropertyTest.normal(random, 40), tolerance, COVERAGE));
      held[0] += holds(c.cp().orElseThrow());
      held[1] += holds(c.pp().orElseThrow());
      held[2] += holds(c.cpk());
      held[3] += holds(c.ppk());
    }
    // pp is exact: within its binomial error; the others are approximations
    assertThat(held[1] / (double) runs).isCloseTo(0.95, within(4.0 * 0.00345));
    for (int count : held) {
      assertThat(count / (double) runs).isBetween(0.92, 0.975);
    }
  }

  private static int holds(Index index) {
    double truth = 4.0 / 3.0;
    return index.low() <= truth && truth <= index.high() ? 1 : 0;
  }

  /** A² and p (20 000 draws) computed with SciPy, of five sets. */
  @Test
  void andersonAndDarling() {
    JsonNode sets = ReferenceData.json("statistics-scipy.json").get("anderson_darling");
    double[] rings =
        Arrays.stream(ChartReferenceTest.pistonRings(25)).flatMapToDouble(Arrays::stream).toArray();
    double[] handbook =
        ChartReferenceTest.numbers(
            ReferenceData.json("nist-handbook-control-charts.json")
                .get("ewma_6_3_2_4")
                .get("data"));
    assertThat(sets).hasSize(5);
    for (int i = 0; i < 5; i++) {
      JsonNode set = sets.get(i);
      double[] values =
          i == 0 ? rings : i == 1 ? handbook : ChartReferenceTest.numbers(set.get("values"));
      Normality normality = Normality.of(values);
      String name = set.get("name").asText();
      assertThat(normality.statistic()).as(name).isCloseTo(set.get("a2").asDouble(), within(1e-8));
      double p = set.get("p_of_20000_draws").asDouble();
      assertThat(normality.p())
          .as(name)
          .isCloseTo(p, within(0.01 + 4.0 * Math.sqrt(p * (1.0 - p) / 20_000)));
    }
  }

  /**
   * Source: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.7, critical values
   * of the adjusted A², from memory.
   */
  @Test
  void criticalValuesOfStephens() {
    double[] critical = {0.561, 0.631, 0.752, 0.873, 1.035};
    double[] level = {0.15, 0.10, 0.05, 0.025, 0.01};
    // the curve for p is a fit to that table: it is right to some percent of the level
    for (int i = 0; i < level.length; i++) {
      assertThat(Normality.p(critical[i])).isCloseTo(level[i], within(0.03 * level[i]));
    }
    assertThat(Normality.p(200.0)).isBetween(0.0, 1e-20);
  }

  @Test
  void whatIsNotNormalIsToldByPercentilesOrNotAtAll() {
    SplittableRandom random = new SplittableRandom(9);
    double[] skewed = new double[4000];
    for (int i = 0; i < skewed.length; i++) {
      skewed[i] = -Math.log(random.nextDouble());
    }
    Capability many =
        capability(Capability.ofIndividuals(skewed, Tolerance.atMost(10.0), COVERAGE));
    assertThat(many.basis()).isEqualTo(Capability.Basis.PERCENTILES);
    // of the exponential distribution: (10 − ln 2) ÷ (ln 200 − ln 2)
    assertThat(many.percentiles().orElseThrow())
        .isCloseTo((10.0 - Math.log(2)) / Math.log(100), within(0.4));
    Capability few =
        capability(
            Capability.ofIndividuals(Arrays.copyOf(skewed, 100), Tolerance.atMost(10.0), COVERAGE));
    assertThat(few.basis()).isEqualTo(Capability.Basis.NONE);
    assertThat(few.percentiles()).isEmpty();
  }

  /** By the normal distribution: the 99.5 % point is at 2.5758σ, so a limit at 4σ gives 1.553. */
  @Test
  void percentilesOfNormalValues() {
    double[] values = ChartPropertyTest.normal(new SplittableRandom(12), 20_000);
    Capability c =
        capability(Capability.ofIndividuals(values, Tolerance.between(-4.0, 4.0), COVERAGE));
    // a 0.5 % point of 20 000 scatters by 0.035: 1.4 %, and the smaller of two is taken
    assertThat(c.percentiles().orElseThrow()).isCloseTo(4.0 / 2.5758, within(0.09));
    assertThat(c.ppk().value()).isCloseTo(4.0 / 3.0, within(0.04));
  }

  /** Source: NIST/SEMATECH e-Handbook 7.2.6.2: 90th percentile of twelve values; from memory. */
  @Test
  void percentileOfTheHandbook() {
    double[] values = {
      95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925,
      95.1990, 95.1682
    };
    Arrays.sort(values);
    assertThat(Capability.percentile(values, 0.9)).isCloseTo(95.1981, within(5e-5));
  }

  @Test
  void whatCannotBeAnsweredSaysSo() {
    Tolerance tolerance = Tolerance.between(0, 1);
    assertThat(Capability.ofIndividuals(new double[9], tolerance, COVERAGE))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 9, 10));
    assertThat(Capability.ofIndividuals(new double[20], tolerance, COVERAGE))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.ALL_IDENTICAL, 20, 20));
    assertThatThrownBy(() -> Tolerance.between(1, 0)).hasMessageContaining("below the upper");
  }

  private static Capability capability(CapabilityAnswer answer) {
    assertThat(answer).isInstanceOf(Capability.class);
    return (Capability) answer;
  }
}
