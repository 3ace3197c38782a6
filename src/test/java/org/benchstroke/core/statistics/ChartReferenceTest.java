package org.benchstroke.core.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.StreamSupport;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.statistics.ControlChart.Kind;
import org.benchstroke.core.statistics.ControlChart.Point;
import org.benchstroke.core.statistics.ControlChart.Signal;
import org.benchstroke.core.statistics.ControlChart.Way;
import org.junit.jupiter.api.Test;

class ChartReferenceTest {
  private static final String HANDBOOK = "nist-handbook-control-charts.json";

  /** Source: computed by numerical integration; printed tables agree to 3 decimals. */
  @Test
  void constants() {
    for (Map<String, String> row : ReferenceData.csv("control-chart-constants.csv")) {
      int n = Integer.parseInt(row.get("n"));
      assertThat(ChartConstants.c4(n)).isCloseTo(number(row, "c4"), within(1e-6));
      assertThat(ChartConstants.d2(n)).isCloseTo(number(row, "d2"), within(1e-6));
      assertThat(ChartConstants.d3(n)).isCloseTo(number(row, "d3"), within(1e-5));
      assertThat(ChartConstants.a2(n)).isCloseTo(number(row, "A2"), within(1e-5));
      assertThat(ChartConstants.lowerRange(n)).isCloseTo(number(row, "D3"), within(2e-5));
      assertThat(ChartConstants.upperRange(n)).isCloseTo(number(row, "D4"), within(2e-5));
    }
    assertThatThrownBy(() -> ChartConstants.d2(11)).hasMessageContaining("2 to 10");
  }

  /** Source: NIST/SEMATECH e-Handbook 6.3.2.2; results seen quoted, data from memory. */
  @Test
  void individualsOfTheHandbook() {
    JsonNode example = ReferenceData.json(HANDBOOK).get("individuals_6_3_2_2");
    double[] data = numbers(example.get("data"));
    ControlChart chart = chart(Charts.individuals(data, new Baseline.First(10), ChartRule.ZONES));
    ControlChart ranges = chart(Charts.movingRange(data, new Baseline.First(10)));
    assertThat(chart.centre()).isCloseTo(example.get("mean").asDouble(), within(1e-9));
    assertThat(ranges.centre()).isCloseTo(example.get("MRbar").asDouble(), within(5e-5));
    // the handbook rounds d2 = 1.128379 to 1.128
    double rounded = ChartConstants.d2(2) / example.get("d2").asDouble();
    Point first = chart.points().get(0);
    assertThat(chart.centre() + (first.high() - chart.centre()) * rounded)
        .isCloseTo(example.get("UCL").asDouble(), within(2e-4));
    assertThat(chart.centre() + (first.low() - chart.centre()) * rounded)
        .isCloseTo(example.get("LCL").asDouble(), within(2e-4));
    assertThat(chart.signals()).isEmpty();
    assertThat(ranges.points()).hasSize(9);
    assertThat(ranges.points().get(0).low()).isZero();
    assertThat(ranges.points().get(0).high()).isCloseTo(3.26653 * 16.9 / 9.0, within(1e-4));
  }

  /** Source: NIST/SEMATECH e-Handbook 6.3.2.4; data and results seen quoted. */
  @Test
  void ewmaOfTheHandbook() {
    JsonNode example = ReferenceData.json(HANDBOOK).get("ewma_6_3_2_4");
    Baseline known =
        new Baseline.Known(example.get("target").asDouble(), example.get("s").asDouble());
    Weighting weighting =
        new Weighting(
            example.get("lambda").asDouble(), example.get("k").asDouble(), Weighting.Limits.STEADY);
    ControlChart chart = chart(Charts.ewma(numbers(example.get("data")), known, weighting));
    // the list of the handbook begins with the target itself
    double[] printed = numbers(example.get("z_2dp"));
    assertThat(chart.points()).hasSize(printed.length - 1);
    for (Point p : chart.points()) {
      assertThat(p.value()).isCloseTo(printed[p.index() + 1], within(0.0051));
      assertThat(p.high()).isCloseTo(example.get("UCL").asDouble(), within(1e-4));
      assertThat(p.low()).isCloseTo(example.get("LCL").asDouble(), within(1e-4));
    }
    // the handbook: the process is in control
    assertThat(chart.signals()).isEmpty();
  }

  /** By its formula: the variance of the first average is λ²σ², that of a late one λ/(2 − λ)·σ². */
  @Test
  void exactLimitsOfAnEwmaBeginNarrow() {
    Weighting weighting = new Weighting(0.2, 3.0, Weighting.Limits.EXACT);
    ControlChart chart = chart(Charts.ewma(new double[60], new Baseline.Known(0, 1), weighting));
    assertThat(chart.points().get(0).high()).isCloseTo(3.0 * 0.2, within(1e-12));
    assertThat(chart.points().get(59).high()).isCloseTo(1.0, within(1e-9));
  }

  /**
   * Source: Montgomery, Introduction to Statistical Quality Control, piston rings; data seen,
   * stated results from memory.
   */
  @Test
  void meansAndRangesOfThePistonRings() {
    JsonNode results = ReferenceData.json("montgomery-piston-rings-results.json");
    JsonNode stated = results.get("stated");
    double[][] rings = pistonRings(40);
    Baseline trial = new Baseline.First(25);
    ControlChart means = chart(Charts.means(rings, trial, ChartRule.ZONES));
    ControlChart ranges = chart(Charts.ranges(rings, trial));
    assertThat(means.centre())
        .isCloseTo(results.get("recomputed").get("xbarbar").asDouble(), within(1e-9));
    assertThat(ranges.centre())
        .isCloseTo(results.get("recomputed").get("Rbar").asDouble(), within(1e-9));
    assertThat(means.points().get(0).high())
        .isCloseTo(stated.get("UCL_x").asDouble(), within(5.1e-4));
    assertThat(means.points().get(0).low())
        .isCloseTo(stated.get("LCL_x").asDouble(), within(5.1e-4));
    // the book, from memory: the trial samples are in control, samples 37 to 39 are not
    assertThat(means.signals()).allMatch(s -> s.index() >= 25);
    assertThat(means.monitored())
        .filteredOn(s -> s.rule() == ChartRule.BEYOND_LIMIT)
        .extracting(Signal::index)
        .containsExactly(36, 37, 38);
    assertThat(ranges.signals()).isEmpty();
    assertThat(means.kind()).isEqualTo(Kind.MEANS);
  }

  /** Each rule by a run made for it, in σ: it is met at the last point and no earlier. */
  @Test
  void eachRuleIsMetWhereItsRunIsComplete() {
    only(ChartRule.BEYOND_LIMIT, Way.UP, 0, 3.1);
    only(ChartRule.BEYOND_LIMIT, Way.DOWN, -3.1);
    only(ChartRule.TWO_OF_THREE, Way.UP, 2.1, 0, 2.1);
    only(ChartRule.TWO_OF_THREE, Way.DOWN, -2.1, -2.9);
    only(ChartRule.FOUR_OF_FIVE, Way.UP, 1.1, 1.3, -0.5, 1.2, 1.4);
    only(ChartRule.EIGHT_ON_ONE_SIDE, Way.DOWN, -.1, -.2, -.1, -.2, -.1, -.3, -.1, -.2);
    only(ChartRule.SIX_TRENDING, Way.UP, -.9, -.5, -.1, .1, .2, .3);
    only(ChartRule.SIX_TRENDING, Way.DOWN, .9, .5, .1, -.1, -.2, -.3);
    only(
        ChartRule.FOURTEEN_ALTERNATING,
        Way.BOTH,
        .1,
        -.1,
        .1,
        -.1,
        .1,
        -.1,
        .1,
        -.1,
        .1,
        -.1,
        .1,
        -.1,
        .1,
        -.1);
  }

  @Test
  void whatIsNearlyARunIsNone() {
    none(2.9, -2.9, 0, 2.1, 0, 0, 2.1);
    none(1.1, 1.2, -1.3, 1.2, -1.1);
    none(.1, .2, .1, .2, .1, .3, .1, 0.0);
    none(-.9, -.5, -.1, .1, .2, .2);
  }

  @Test
  void tooFewPointsGiveNoLimits() {
    double[] nine = {1, 2, 3, 4, 5, 6, 7, 8, 9};
    assertThat(Charts.individuals(nine, new Baseline.First(9), ChartRule.ZONES))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 9, 10));
    assertThat(Charts.individuals(nine, new Baseline.First(20), ChartRule.ZONES))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 9, 20));
    assertThat(Charts.movingRange(new double[0], new Baseline.First(10)))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 0, 10));
    double[] one = {1};
    Baseline known = new Baseline.Known(0, 1);
    assertThat(Charts.movingRange(one, known)).isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 1, 2));
    Weighting weighting = new Weighting(0.3, 3.0, Weighting.Limits.STEADY);
    assertThat(Charts.ewma(new double[0], known, weighting))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 0, 1));
    assertThat(Charts.means(new double[0][], new Baseline.First(10), ChartRule.ZONES))
        .isEqualTo(new NoAnswer(NoAnswer.Lack.TOO_FEW, 0, 10));
  }

  @Test
  void aBaselineWithoutScatterGivesNoLimits() {
    double[] same = IntStream.range(0, 20).mapToDouble(i -> 0.1).toArray();
    Weighting weighting = new Weighting(0.3, 3.0, Weighting.Limits.STEADY);
    NoAnswer identical = new NoAnswer(NoAnswer.Lack.ALL_IDENTICAL, 12, 12);
    assertThat(Charts.individuals(same, new Baseline.First(12), ChartRule.ZONES))
        .isEqualTo(identical);
    assertThat(Charts.ewma(same, new Baseline.First(12), weighting)).isEqualTo(identical);
  }

  @Test
  void aStatedBaselineLeavesOutWhatWasNotAccepted() {
    double[] values = new double[24];
    for (int i = 0; i < 24; i++) {
      values[i] = i % 2 == 0 ? 1.0 : -1.0;
    }
    values[5] = 500.0;
    List<Integer> accepted = IntStream.range(0, 16).filter(i -> i != 5).boxed().toList();
    ControlChart chart =
        chart(Charts.individuals(values, new Baseline.Stated(accepted), ChartRule.LIMIT_ONLY));
    // neither the value nor its two moving ranges count
    assertThat(chart.sigma()).isCloseTo(2.0 / ChartConstants.d2(2), within(1e-12));
    assertThat(chart.signals()).containsExactly(new Signal(ChartRule.BEYOND_LIMIT, 5, Way.UP));
    assertThat(chart.points().get(5).baseline()).isFalse();
    assertThat(chart.monitored()).hasSize(1);
    List<Integer> apart = IntStream.range(0, 12).map(i -> 2 * i).boxed().toList();
    assertThat(Charts.individuals(values, new Baseline.Stated(apart), ChartRule.ZONES))
        .isInstanceOf(NoAnswer.class);
  }

  @Test
  void whatIsNoNumberIsRefused() {
    double[] values = {1, 2, Double.NaN};
    assertThatThrownBy(() -> Charts.individuals(values, new Baseline.Known(0, 1), ChartRule.ZONES))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("value 2");
    assertThatThrownBy(() -> new Baseline.Known(0, 0)).hasMessageContaining("above 0");
    assertThatThrownBy(() -> new Weighting(0, 3, Weighting.Limits.STEADY))
        .hasMessageContaining("above 0");
    double[][] uneven = {{1, 2}, {1, 2, 3}};
    assertThatThrownBy(() -> Charts.ranges(uneven, new Baseline.First(10)))
        .hasMessageContaining("one size");
  }

  private static void only(ChartRule rule, Way way, double... sigmas) {
    assertThat(signals(sigmas)).containsExactly(new Signal(rule, sigmas.length - 1, way));
  }

  private static void none(double... sigmas) {
    assertThat(signals(sigmas)).isEmpty();
  }

  private static List<Signal> signals(double... sigmas) {
    return chart(
            Charts.individuals(sigmas, new Baseline.Known(0, 1), EnumSet.allOf(ChartRule.class)))
        .signals();
  }

  private static ControlChart chart(ChartAnswer answer) {
    assertThat(answer).isInstanceOf(ControlChart.class);
    return (ControlChart) answer;
  }

  static double[][] pistonRings(int groups) {
    double[] all = ReferenceData.column("montgomery-piston-rings.csv", "diameter_mm");
    double[][] rings = new double[groups][5];
    for (int i = 0; i < groups * 5; i++) {
      rings[i / 5][i % 5] = all[i];
    }
    return rings;
  }

  static double[] numbers(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false)
        .mapToDouble(JsonNode::asDouble)
        .toArray();
  }

  private static double number(Map<String, String> row, String key) {
    return Double.parseDouble(row.get(key));
  }
}
