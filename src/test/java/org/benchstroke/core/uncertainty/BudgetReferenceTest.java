package org.benchstroke.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.ReferenceData;
import org.junit.jupiter.api.Test;

class BudgetReferenceTest {

  /** Source: JCGM 100:2008 G.4.1 example; confidence: from memory, recomputed. */
  @Test
  void welchSatterthwaiteOfTheGuide() {
    JsonNode data = ReferenceData.json("gum-g4-welch-satterthwaite.json");
    List<Component> components = new ArrayList<>();
    for (JsonNode c : data.get("components_relative_percent")) {
      components.add(Component.typeA("x", c.get("u").asDouble(), c.get("dof").asDouble()));
    }
    Expanded expanded = new Budget("%", components).expand(0.95);
    JsonNode stated = data.get("stated");
    JsonNode recomputed = data.get("recomputed");
    assertThat(expanded.standard())
        .isCloseTo(stated.get("uc_rel_percent").asDouble(), within(0.005));
    assertThat(expanded.degreesOfFreedom())
        .isCloseTo(stated.get("nu_eff").asDouble(), within(0.05))
        .isCloseTo(recomputed.get("nu_eff").asDouble(), within(1e-9));
    assertThat(expanded.k())
        .isCloseTo(stated.get("t95").asDouble(), within(0.005))
        .isCloseTo(recomputed.get("t95_19").asDouble(), within(1e-6));
    assertThat(expanded.half())
        .isCloseTo(stated.get("U95_rel_percent").asDouble(), within(0.05))
        .isCloseTo(recomputed.get("U95_rel_percent").asDouble(), within(1e-6));
  }

  /**
   * The end gauge. Source: JCGM 100:2008 H.1; confidence: inputs seen in a stored text, ν_eff, k
   * and U from memory, recomputed. To first order: l_s, d in three parts, and l_s·θ·δα, l_s·α·δθ.
   */
  @Test
  void endGaugeOfTheGuide() {
    JsonNode data = ReferenceData.json("gum-h1-end-gauge.json");
    JsonNode inputs = data.get("inputs");
    double length = inputs.get(0).get("value_nm").asDouble();
    List<Component> components = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      JsonNode input = inputs.get(i);
      components.add(
          Component.typeA(
              input.get("q").asText(), input.get("u_nm").asDouble(), input.get("dof").asDouble()));
    }
    double theta = inputs.get(5).get("value").asDouble();
    double alpha = inputs.get(4).get("value").asDouble();
    components.add(bounded(inputs.get(6), length * theta));
    components.add(bounded(inputs.get(7), length * alpha));
    Expanded expanded = new Budget("nm", components).firstOrder(0.99);
    JsonNode stated = data.get("stated");
    assertThat(expanded.standard()).isCloseTo(stated.get("uc_nm").asDouble(), within(0.5));
    // The Guide cuts ν_eff = 16.7 to 16 before it looks k up; here it is not cut.
    assertThat(Math.floor(expanded.degreesOfFreedom())).isEqualTo(stated.get("nu_eff").asDouble());
    assertThat(CoverageFactor.of(0.99, 16)).isCloseTo(stated.get("t99").asDouble(), within(0.005));
    assertThat(expanded.half()).isCloseTo(stated.get("U99_nm").asDouble(), within(1.5));
  }

  private static Component bounded(JsonNode input, double sensitivity) {
    double standard = input.get("half_width_rect").asDouble() / Math.sqrt(3.0);
    return Component.typeA(input.get("q").asText(), standard, input.get("dof").asDouble())
        .times(sensitivity);
  }

  /** The edge cases named with that example; they follow from the formula. */
  @Test
  void edgeCasesOfWelchSatterthwaite() {
    Component known = Component.rectangular("bound", 0.3, 1.0);
    Component observed = Component.typeA("observed", 0.1, 4);
    Component nothing = Component.typeA("nothing", 0.0, 3);

    Expanded infinite = new Budget("%", List.of(known, known)).firstOrder(0.95);
    assertThat(infinite.degreesOfFreedom()).isInfinite();
    assertThat(infinite.k()).isCloseTo(1.959964, within(1e-6));

    Expanded single = new Budget("%", List.of(observed)).expand();
    assertThat(single.degreesOfFreedom()).isCloseTo(4.0, within(1e-12));
    assertThat(single.k()).isCloseTo(2.776445, within(1e-6));

    double alone = new Budget("%", List.of(known, observed)).effectiveDegreesOfFreedom();
    assertThat(new Budget("%", List.of(known, observed, nothing)).effectiveDegreesOfFreedom())
        .isEqualTo(alone);
    // u = 0.3/√3 and 0.1: (0.04)²/(0.1⁴/4) = 64 by hand.
    assertThat(alone).isCloseTo(64.0, within(1e-9));

    Expanded zero = new Budget("%", List.of(nothing)).expand();
    assertThat(zero.half()).isZero();
    assertThat(zero.k()).isFinite();
    assertThat(new Budget("%", List.of()).expand().half()).isZero();
  }

  @Test
  void tinyUncertaintiesKeepTheirDegreesOfFreedom() {
    Budget budget = new Budget("A", List.of(Component.typeA("x", 1e-90, 7)));
    assertThat(budget.effectiveDegreesOfFreedom()).isCloseTo(7.0, within(1e-9));
  }

  /** Source: JCGM 100:2008 table G.2 in layout; values recomputed, spot checks from memory. */
  @Test
  void studentTable() {
    List<Map<String, String>> rows = ReferenceData.csv("student-t-table.csv");
    assertThat(rows).hasSizeGreaterThan(20);
    for (Map<String, String> row : rows) {
      double degrees = degrees(row.get("nu"));
      for (String p : List.of("68.27", "90", "95", "95.45", "99", "99.73")) {
        double stated = Double.parseDouble(row.get("p_" + p));
        assertThat(CoverageFactor.of(Double.parseDouble(p) / 100.0, degrees))
            .as("t for p = %s %%, ν = %s", p, row.get("nu"))
            .isCloseTo(stated, within(stated * 2e-6));
      }
    }
  }

  /** Source: EA-4/02, k at 95.45 %; confidence: stated column from memory, recomputed. */
  @Test
  void coverageFactorsOfTheAccreditationGuide() {
    List<Map<String, String>> rows = ReferenceData.csv("ea-4-02-k-factors.csv");
    assertThat(rows).hasSize(12);
    for (Map<String, String> row : rows) {
      double k = CoverageFactor.of(0.9545, degrees(row.get("nu_eff")));
      assertThat(k).isCloseTo(Double.parseDouble(row.get("k_stated")), within(0.0051));
      assertThat(k).isCloseTo(Double.parseDouble(row.get("k_recomputed_95_45")), within(2e-6));
    }
  }

  /** Source: JCGM 100:2008 G.4.1, note 1: the next lower integer. Never a smaller k than exact. */
  @Test
  void degreesOfFreedomAreTruncated() {
    assertThat(CoverageFactor.of(0.95, 4.9)).isEqualTo(CoverageFactor.of(0.95, 4.0));
    assertThat(CoverageFactor.of(0.95, 3.9999999)).isEqualTo(CoverageFactor.of(0.95, 4.0));
    assertThat(CoverageFactor.of(0.95, 0.4)).isEqualTo(CoverageFactor.of(0.95, 1.0));
    assertThat(CoverageFactor.of(0.95, 1e9)).isCloseTo(1.959964, within(1e-6));
  }

  @Test
  void refusesWhatIsNoCoverage() {
    assertThatThrownBy(() -> CoverageFactor.of(1.0, 5)).hasMessageContaining("between 0 and 1");
    assertThatThrownBy(() -> CoverageFactor.of(0.95, 0.0)).hasMessageContaining("above 0");
    assertThatThrownBy(() -> Component.typeA("x", Double.NaN, 1)).hasMessageContaining("x");
  }

  private static double degrees(String text) {
    return text.equals("inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(text);
  }
}
