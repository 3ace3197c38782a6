package org.benchstroke.core.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Map;
import java.util.SplittableRandom;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.statistics.GaugeStudy.Effect;
import org.benchstroke.core.statistics.GaugeStudy.Method;
import org.benchstroke.core.statistics.GaugeStudy.Part;
import org.junit.jupiter.api.Test;

class GaugeReferenceTest {
  private static final String COMPUTED = "statistics-scipy.json";

  /** Source: Cano, Moguerza, Redchuk, Six Sigma with R (2012) chapter 5; data seen. */
  @Test
  void crossedWithoutInteraction() {
    JsonNode results = ReferenceData.json("gauge-rr-sixsigma-results.json");
    JsonNode full = results.get("anova_full");
    JsonNode reduced = results.get("reduced_model_without_interaction");
    JsonNode components = reduced.get("variance_components");
    GaugeStudy study = study(CrossedGauge.byVariance(sixSigma("time1")));
    assertThat(study.method()).isEqualTo(Method.CROSSED_POOLED);
    close(study.row(Effect.UNIT).squares(), full.get("SS_part"));
    close(study.row(Effect.OPERATOR).squares(), full.get("SS_operator"));
    close(study.row(Effect.INTERACTION).squares(), full.get("SS_interaction"));
    assertThat(study.row(Effect.INTERACTION).f().orElseThrow())
        .isCloseTo(results.get("F").get("interaction").asDouble(), within(5e-6));
    assertThat(study.row(Effect.INTERACTION).p().orElseThrow())
        .isCloseTo(results.get("p").get("interaction").asDouble(), within(5e-6));
    close(study.row(Effect.REPEATABILITY).mean(), reduced.get("MS_error"));
    close(study.variance(Effect.REPEATABILITY), components.get("repeatability"));
    close(study.variance(Effect.OPERATOR), components.get("operator"));
    close(study.variance(Effect.UNIT), components.get("part"));
    close(study.gauge() * study.gauge(), reduced.get("gauge_rr"));
    close(study.total() * study.total(), reduced.get("total"));
    close(study.percentOfStudy(study.gauge()), reduced.get("percent_study_variation_grr"));
    close(
        study.percentOfTolerance(study.gauge(), 1.8 - 0.7),
        reduced.get("percent_tolerance_6sigma_0.7_1.8"));
    assertThat(study.distinctCategories())
        .isEqualTo((int) reduced.get("ndc_untruncated").asDouble());
    assertThat(study.parts()).noneMatch(Part::setToZero);
  }

  /** The second response of the same data (p of the interaction 0.218); computed with SciPy. */
  @Test
  void crossedWithInteractionAndNothingSeenOfTheOperators() {
    JsonNode computed = ReferenceData.json(COMPUTED).get("crossed_time2");
    GaugeStudy study = study(CrossedGauge.byVariance(sixSigma("time2")));
    assertThat(study.method()).isEqualTo(Method.CROSSED);
    close(study.row(Effect.UNIT).f().orElseThrow(), computed.get("F_part"));
    close(study.row(Effect.UNIT).p().orElseThrow(), computed.get("p_part"));
    close(study.row(Effect.OPERATOR).f().orElseThrow(), computed.get("F_op"));
    close(study.row(Effect.OPERATOR).p().orElseThrow(), computed.get("p_op"));
    close(study.row(Effect.INTERACTION).p().orElseThrow(), computed.get("p_int"));
    close(study.variance(Effect.REPEATABILITY), computed.get("v_e"));
    close(study.variance(Effect.INTERACTION), computed.get("v_int"));
    close(study.variance(Effect.UNIT), computed.get("v_part"));
    assertThat(computed.get("v_op").asDouble()).isNegative();
    assertThat(study.parts()).contains(new Part(Effect.OPERATOR, 0.0, true));
  }

  /** Source: AIAG MSA manual, 4th edition; results seen quoted, the range of the parts computed. */
  @Test
  void averageAndRangeOfTheManual() {
    JsonNode stated = ReferenceData.json("msa-manual-grr-average-range-results.json").get("stated");
    // K3 of ten parts is 0.3146 (MSA manual, from memory): Rp = PV ÷ K3
    double units = stated.get("PV").asDouble() / 0.3146;
    GaugeStudy study =
        CrossedGauge.fromRanges(
            new CrossedGauge.Ranges(
                stated.get("Rbarbar").asDouble(), stated.get("Xdiff").asDouble(), units),
            new CrossedGauge.Size(10, 3, 3));
    printed(study.deviation(Effect.REPEATABILITY), stated.get("EV"));
    printed(study.deviation(Effect.OPERATOR), stated.get("AV"));
    printed(study.gauge(), stated.get("GRR"));
    printed(study.deviation(Effect.UNIT), stated.get("PV"));
    printed(study.total(), stated.get("TV"));
    assertThat(study.percentOfStudy(study.gauge()))
        .isCloseTo(stated.get("percent_GRR").asDouble(), within(0.05));
    assertThat(study.distinctCategories()).isEqualTo(stated.get("ndc").asInt());
  }

  /** The first response; computed with NumPy from d2 and d2* of Duncan's table (from memory). */
  @Test
  void averageAndRangeOfReadings() {
    GaugeStudy study = study(CrossedGauge.byRange(sixSigma("time1")));
    assertThat(study.deviation(Effect.REPEATABILITY)).isCloseTo(0.137857501, within(1e-7));
    assertThat(study.deviation(Effect.OPERATOR)).isCloseTo(0.0326702, within(1e-6));
    assertThat(study.deviation(Effect.UNIT)).isCloseTo(0.2371548, within(2e-6));
    assertThat(study.table()).isEmpty();
  }

  /**
   * Source: Montgomery, Design and Analysis of Experiments, purity of batches of three suppliers;
   * data and printed results (SS 15.06, 69.92, 63.33; F 0.97, 2.94; p 0.42, 0.02) from memory.
   */
  @Test
  void nestedBatches() {
    double[][][] purity = {
      {{1, -1, 0}, {-2, -3, -4}, {-2, 0, 1}, {1, 4, 0}},
      {{1, -2, -3}, {0, 4, 2}, {-1, 0, -2}, {0, 3, 2}},
      {{2, 4, 0}, {-2, 0, 2}, {1, -1, 2}, {3, 2, 1}}
    };
    GaugeStudy study = study(NestedGauge.byVariance(purity));
    GaugeStudy.Row suppliers = study.row(Effect.OPERATOR);
    GaugeStudy.Row batches = study.row(Effect.UNIT);
    assertThat(suppliers.squares()).isCloseTo(15.06, within(0.005));
    assertThat(batches.squares()).isCloseTo(69.92, within(0.005));
    assertThat(study.row(Effect.REPEATABILITY).squares()).isCloseTo(63.33, within(0.005));
    assertThat(suppliers.f().orElseThrow()).isCloseTo(0.97, within(0.005));
    assertThat(suppliers.p().orElseThrow()).isCloseTo(0.42, within(0.005));
    assertThat(batches.f().orElseThrow()).isCloseTo(2.94, within(0.005));
    assertThat(batches.p().orElseThrow()).isCloseTo(0.02, within(0.005));
    // the book, from memory: σ² of batches (7.77 − 2.64)/3 = 1.71, that of suppliers negative
    assertThat(study.variance(Effect.UNIT)).isCloseTo(1.71, within(0.005));
    assertThat(study.parts()).contains(new Part(Effect.OPERATOR, 0.0, true));
  }

  /**
   * Source: JCGM 100:2008 H.5, table H.9, from memory. Each day's five readings are made to have
   * the printed mean and deviation: those of −1, −1, 0, 1, 1 are 0 and 1.
   */
  @Test
  void daysOfTheGuide() {
    JsonNode guide = ReferenceData.json("gum-h5-anova.json");
    JsonNode recomputed = guide.get("recomputed");
    double[] means = ChartReferenceTest.numbers(guide.get("day_means_V"));
    double[] deviations = ChartReferenceTest.numbers(guide.get("day_s_uV"));
    double[] pattern = {-1, -1, 0, 1, 1};
    double[][] readings = new double[10][5];
    for (int day = 0; day < 10; day++) {
      for (int i = 0; i < 5; i++) {
        // in µV about 10 V
        readings[day][i] = (means[day] - 10.0) * 1e6 + pattern[i] * deviations[day];
      }
    }
    GaugeStudy study = study(NestedGauge.ofOneOperator(readings));
    assertThat(study.row(Effect.UNIT).f().orElseThrow())
        .isCloseTo(guide.get("stated").get("F").asDouble(), within(0.02))
        .isCloseTo(recomputed.get("F").asDouble(), within(1e-6));
    assertThat(study.deviation(Effect.REPEATABILITY))
        .isCloseTo(recomputed.get("pooled_s_uV").asDouble(), within(1e-6));
    assertThat(study.deviation(Effect.UNIT))
        .isCloseTo(guide.get("stated").get("s_B_uV").asDouble(), within(0.5))
        .isCloseTo(recomputed.get("s_B_uV").asDouble(), within(1e-6));
    // F is between the 5 % and the 2.5 % point
    assertThat(study.row(Effect.UNIT).p().orElseThrow()).isBetween(0.025, 0.05);
  }

  /** Source: MSA manual linearity example, data seen; p and band computed with SciPy. */
  @Test
  void biasAndLinearityOfTheManual() {
    String file = "gage-linearity-study.csv";
    JsonNode results = ReferenceData.json("gage-linearity-results.json");
    JsonNode recomputed = results.get("recomputed");
    JsonNode computed = ReferenceData.json(COMPUTED).get("linearity");
    BiasStudy study =
        (BiasStudy)
            BiasStudy.of(
                ReferenceData.column(file, "reference"), ReferenceData.column(file, "reading"));
    close(study.intercept(), recomputed.get("b0"));
    close(study.slope(), recomputed.get("b1"));
    close(study.determination(), recomputed.get("R2"));
    close(study.deviation(), recomputed.get("s"));
    close(study.tOfSlope(), recomputed.get("t_slope"));
    close(study.tOfIntercept(), recomputed.get("t_intercept"));
    double[] printed = ChartReferenceTest.numbers(results.get("stated").get("bias_at_refs"));
    assertThat(study.points()).hasSize(printed.length);
    for (int i = 0; i < printed.length; i++) {
      assertThat(study.points().get(i).bias()).isCloseTo(printed[i], within(5e-7));
    }
    assertThat(study.pOfSlope()).isCloseTo(computed.get("p_slope").asDouble(), within(1e-18));
    assertThat(study.points().get(0).p())
        .isCloseTo(computed.get("p_bias_at_2").asDouble(), within(1e-12));
    assertThat(study.half(6.0, 0.95))
        .isCloseTo(computed.get("half_band_95_at_6").asDouble(), within(1e-9));
  }

  @Test
  void whatCannotBeAnsweredSaysSo() {
    NoAnswer few = new NoAnswer(NoAnswer.Lack.TOO_FEW, 1, 2);
    double[][][] once = {{{1}, {2}}, {{3}, {4}}};
    double[][][] coarse = {{{1, 1}, {2, 2}}, {{3, 3}, {4, 4}}};
    assertThat(CrossedGauge.byVariance(once)).isEqualTo(few);
    assertThat(NestedGauge.byVariance(once)).isEqualTo(few);
    assertThat(CrossedGauge.byRange(coarse))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.ALL_IDENTICAL, 8, 8));
    assertThat(CrossedGauge.byVariance(coarse)).isInstanceOf(NoAnswer.class);
    assertThat(CrossedGauge.byVariance(new double[0][][])).isInstanceOf(NoAnswer.class);
    double[] two = {1, 2};
    assertThat(BiasStudy.of(two, two)).isEqualTo(few);
    double[][][] uneven = {{{1, 2}, {2, 3}}, {{3, 4}, {4}}};
    assertThatThrownBy(() -> CrossedGauge.byVariance(uneven))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("2 and 1");
    double[] one = {1};
    assertThatThrownBy(() -> BiasStudy.of(two, one)).hasMessageContaining("2 references");
  }

  /** Drawn studies with known components: on average the estimates are what was drawn. */
  @Test
  void componentsOfDrawnStudiesComeOutOnAverage() {
    SplittableRandom random = new SplittableRandom(7);
    int runs = 3000;
    double repeatability = 0.0;
    double units = 0.0;
    double interaction = 0.0;
    for (int run = 0; run < runs; run++) {
      GaugeStudy study = study(CrossedGauge.byVariance(drawn(random)));
      if (study.method() == Method.CROSSED) {
        interaction += study.variance(Effect.INTERACTION);
      }
      repeatability += study.variance(Effect.REPEATABILITY);
      units += study.variance(Effect.UNIT);
    }
    // 180 degrees of freedom a study: 0.1·√(2/180) ÷ √3000 = 0.0002
    assertThat(repeatability / runs).isCloseTo(0.01, within(0.0001));
    // 9 degrees of freedom a study: 1·√(2/9) ÷ √3000 = 0.009
    assertThat(units / runs).isCloseTo(1.0, within(4.0 * 0.0095));
    assertThat(interaction / runs).isCloseTo(0.04, within(0.002));
  }

  /** Ten units, three operators, three repeats; σ 0.1, of the interaction 0.2, of units 1. */
  private static double[][][] drawn(SplittableRandom random) {
    double[][][] readings = new double[10][3][3];
    double[] operators = ChartPropertyTest.normal(random, 3);
    for (double[][] unit : readings) {
      double of = random.nextGaussian();
      for (int j = 0; j < 3; j++) {
        double cell = of + 0.3 * operators[j] + 0.2 * random.nextGaussian();
        for (int k = 0; k < 3; k++) {
          unit[j][k] = cell + 0.1 * random.nextGaussian();
        }
      }
    }
    return readings;
  }

  private static double[][][] sixSigma(String response) {
    double[][][] readings = new double[3][3][3];
    for (Map<String, String> row : ReferenceData.csv("gauge-rr-sixsigma.csv")) {
      readings[index(row, "prototype")][index(row, "operator")][index(row, "run")] =
          Double.parseDouble(row.get(response));
    }
    return readings;
  }

  private static int index(Map<String, String> row, String key) {
    return Integer.parseInt(row.get(key)) - 1;
  }

  private static GaugeStudy study(StudyAnswer answer) {
    assertThat(answer).isInstanceOf(GaugeStudy.class);
    return (GaugeStudy) answer;
  }

  private static void close(double value, JsonNode reference) {
    double expected = reference.asDouble();
    assertThat(value).isCloseTo(expected, within(Math.abs(expected) * 1e-9));
  }

  /** The manual prints four decimals of what it computed from rounded figures. */
  private static void printed(double value, JsonNode reference) {
    assertThat(value).isCloseTo(reference.asDouble(), within(1.5e-4));
  }
}
