package org.benchstroke.core.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.benchstroke.ReferenceData;
import org.junit.jupiter.api.Test;

class ShapeReferenceTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int MANY = 200_000;

  private static Component normal(double u) {
    return new Component("n", Component.Evaluation.TYPE_B_NORMAL, u, 1.0, NONE);
  }

  private static Component rectangular(double u) {
    return Component.rectangular("r", u * Math.sqrt(3.0), 1.0);
  }

  private static MonteCarlo.Result drawn(List<Component> components) {
    List<MonteCarlo.Input> inputs = components.stream().map(MonteCarlo::of).toList();
    return MonteCarlo.propagate(inputs, x -> Arrays.stream(x).sum(), 0.95, MANY);
  }

  /** Source: JCGM 101:2008 9.2.2 to 9.2.4; confidence: from memory, recomputed. */
  @Test
  void additiveModels() {
    JsonNode examples = ReferenceData.json("gum-s1-examples.json").get("examples");
    List<Component> four = Collections.nCopies(4, normal(1.0));
    List<Component> flat = Collections.nCopies(4, rectangular(1.0));
    List<Component> mixed = new ArrayList<>(Collections.nCopies(3, rectangular(1.0)));
    mixed.add(rectangular(10.0));
    double ofFour = examples.get("9.2.2").get("interval95").get(1).asDouble();
    // Exact end of 9.2.3: 2√3·(2 − (3/5)^¼)
    double ofFlat = 2.0 * Math.sqrt(3.0) * (2.0 - Math.pow(0.6, 0.25));
    double ofMixed = examples.get("9.2.4").get("interval95_MC").get(1).asDouble();

    assertThat(new Budget("1", four).expand().half()).isCloseTo(ofFour, within(0.005));
    assertThat(new Budget("1", flat).expand().half()).isCloseTo(ofFlat, within(0.005));
    assertThat(new Budget("1", mixed).expand().half()).isCloseTo(ofMixed, within(0.06));
    assertThat(new Budget("1", mixed).firstOrder(0.95).half())
        .isCloseTo(examples.get("9.2.4").get("GUF").get(1).asDouble(), within(0.1));

    assertThat(drawn(four).high()).isCloseTo(ofFour, within(0.03));
    assertThat(drawn(flat).high()).isCloseTo(ofFlat, within(0.03));
    assertThat(drawn(mixed).high()).isCloseTo(ofMixed, within(0.1));
    assertThat(drawn(mixed).standard())
        .isCloseTo(examples.get("9.2.4").get("u").asDouble(), within(0.06));
  }

  /** Source: JCGM 101:2008 9.3, mass calibration; confidence: from memory, recomputed. */
  @Test
  void massCalibration() {
    JsonNode stated =
        ReferenceData.json("gum-s1-examples.json").get("examples").get("9.3").get("stated");
    List<MonteCarlo.Input> inputs =
        List.of(
            MonteCarlo.normal(100_000.0, 0.050),
            MonteCarlo.normal(1.234, 0.020),
            MonteCarlo.rectangular(1.10, 1.30),
            MonteCarlo.rectangular(7000, 9000),
            MonteCarlo.rectangular(7950, 8050));
    MonteCarlo.Result result =
        MonteCarlo.propagate(
            inputs,
            x -> (x[0] + x[1]) * (1.0 + (x[2] - 1.2) * (1.0 / x[3] - 1.0 / x[4])) - 100_000.0,
            0.95,
            MANY);
    assertThat(result.mean()).isCloseTo(stated.get("MC_mean").asDouble(), within(5e-4));
    assertThat(result.standard()).isCloseTo(stated.get("MC_u").asDouble(), within(5e-4));
    JsonNode shortest = stated.get("MC_shortest95");
    assertThat(result.shortestLow()).isCloseTo(shortest.get(0).asDouble(), within(5e-3));
    assertThat(result.shortestHigh()).isCloseTo(shortest.get(1).asDouble(), within(5e-3));
  }

  /** Source: EA-4/02 M:2013 S2, S9, S10; confidence: from memory, recomputed. */
  @Test
  void accreditationGuideBudgets() {
    JsonNode examples = ReferenceData.json("ea-4-02-examples.json");
    List<Component> weight =
        List.of(
            normal(22.5),
            Component.rectangular("drift", 15, 1.0),
            normal(25.0 / Math.sqrt(3.0)),
            Component.rectangular("eccentricity", 10, 1.0),
            Component.rectangular("air", 10, 1.0));
    JsonNode s2 = examples.get("S2_weight_10kg_mg");
    Budget mass = new Budget("mg", weight);
    assertThat(mass.combinedStandard())
        .isCloseTo(s2.get("stated").get("u").asDouble(), within(0.05))
        .isCloseTo(s2.get("recomputed_u").asDouble(), within(1e-9));
    assertThat(mass.firstOrder(0.9545).half())
        .isCloseTo(s2.get("stated").get("U_k2").asDouble(), within(0.5));

    List<Component> meter =
        List.of(
            normal(0.001),
            Component.rectangular("resolution", 0.05, 1.0),
            Component.rectangular("source", 0.011, 1.0));
    JsonNode s9 = examples.get("S9_digital_multimeter_100V");
    Expanded volts = new Budget("V", meter).expand();
    assertThat(volts.standard()).isCloseTo(s9.get("recomputed_u").asDouble(), within(1e-9));
    // The stated k is that of the dominant input alone; the sum's own is 1.71, U the same.
    double alone = new Budget("V", meter.subList(1, 2)).expand().k();
    assertThat(alone).isCloseTo(s9.get("stated").get("k").asDouble(), within(0.006));
    assertThat(volts.k()).isBetween(alone, 1.72);
    assertThat(volts.half()).isCloseTo(s9.get("stated").get("U").asDouble(), within(0.005));

    // S10 takes the two largest only, a trapezoid: k 1.83.
    List<Component> caliper =
        List.of(
            normal(0.46),
            Component.rectangular("temperature", 1.7 * Math.sqrt(3.0), 1.0),
            Component.rectangular("resolution", 25, 1.0),
            Component.rectangular("mechanical effects", 50, 1.0));
    JsonNode s10 = examples.get("S10_vernier_caliper_150mm");
    Expanded length = new Budget("µm", caliper).expand();
    assertThat(length.standard()).isCloseTo(Math.hypot(25.0, 50.0) / Math.sqrt(3.0), within(0.1));
    // 33 µm is stated from inputs that were rounded up first: 15 and 29.
    assertThat(length.standard()).isCloseTo(s10.get("stated").get("u_um").asDouble(), within(0.7));
    assertThat(length.k()).isCloseTo(s10.get("recomputed_k").asDouble(), within(0.01));
  }

  /** The grid and the draws are two ways to one number. */
  @Test
  void gridAndDrawsAgree() {
    for (double nu : new double[] {3, 10, 40}) {
      for (double share : new double[] {0.1, 1.0, 5.0}) {
        List<Component> budget =
            List.of(
                rectangular(1.0),
                rectangular(0.4),
                normal(0.3 * share),
                Component.typeA("a", share, nu));
        assertThat(new Budget("1", budget).expand().half())
            .as("ν %s, type A %s", nu, share)
            .isCloseTo(drawn(budget).high(), within(0.015 * drawn(budget).high()));
      }
    }
  }
}
