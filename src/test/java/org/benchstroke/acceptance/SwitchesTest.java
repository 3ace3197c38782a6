package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.benchstroke.core.model.CamParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** The switches of both ends, by creeping past them. */
class SwitchesTest {
  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "switches"
      creep_deg_per_s = 0.5
      margin_deg = 3
      beyond_pct = 1.5
      cycles = 3
      """;

  private static final String LIMITS =
      """
      [limits]
      switch_error_deg = 1.0
      auxiliary_lead_deg = { min = 1.4, max = 3.4 }
      switch_differential_deg = { min = 0.2, max = 3.0 }
      """;

  private static final CamParameters CAMS = ModelParameters.baseline().cams();

  private static Simulation unit(CamParameters cams, long seed) {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    return healthy.withSeed(seed).withUnit(healthy.parameters().with(cams));
  }

  private static CamParameters cams(double closed, double closedAuxiliary) {
    CamParameters base = CAMS;
    return new CamParameters(
        closed,
        base.openDegrees(),
        closedAuxiliary,
        base.openAuxiliaryDegrees(),
        base.differentialDegrees(),
        base.bounceSeconds());
  }

  private static JudgedRun judge(Simulation unit) {
    return VirtualBench.with(unit)
        .tests(TESTS)
        .unitType(t -> t.replaceAll("(?s)\\[limits].*", "") + LIMITS)
        .judge();
  }

  private static Measure measure(JudgedRun run, MeasureKind kind, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .findFirst()
        .orElseThrow();
  }

  private static AsOrdered order(JudgedRun run, String end) {
    return run.orders().stream()
        .filter(o -> o.what().equals("switches, " + end))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void aSoundUnitPasses() {
    JudgedRun run = judge(unit(CAMS, 1));
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
    assertThat(measure(run, MeasureKind.SWITCH_ERROR, "closed").note())
        .startsWith("trips at ")
        .endsWith("set to -0.4°");
  }

  /** 40 units with cams anywhere about where they belong: ten intervals each hold the truth. */
  @Test
  void theIntervalsHoldTheTruth() {
    SplittableRandom random = new SplittableRandom(7);
    int held = 0;
    int all = 0;
    for (int seed = 1; seed <= 40; seed++) {
      CamParameters cams =
          new CamParameters(
              random.nextDouble(-0.35, 0.2),
              random.nextDouble(89.8, 90.35),
              random.nextDouble(1.5, 3.0),
              random.nextDouble(87.0, 88.5),
              random.nextDouble(0.3, 1.2),
              0.003);
      JudgedRun run = judge(unit(cams, seed));
      for (Judgement judged : run.judgements()) {
        Measure m = judged.measure();
        assertThat(m.value()).as("%s %s: %s", m.kind(), m.place(), m.note()).isPresent();
        double half = m.budget().orElseThrow().expand().half();
        held += Math.abs(m.value().get() - truth(m, cams)) <= half ? 1 : 0;
        all++;
        assertThat(half).isLessThan(0.7);
      }
    }
    assertThat(all).isEqualTo(400);
    System.out.println("HELD " + held);
    // 400 values of 40 units: the coverage itself is counted over 2,000 in SwitchCoverageTest.
    assertThat(held / 400.0).isGreaterThan(0.9);
  }

  private static double truth(Measure m, CamParameters cams) {
    return switch (m.kind()) {
      case SWITCH_ERROR ->
          switch (m.place().words()) {
            case "closed" -> cams.closedDegrees() + 0.4;
            case "closed-auxiliary" -> cams.closedAuxiliaryDegrees() - 2.0;
            case "open" -> cams.openDegrees() - 90.4;
            default -> cams.openAuxiliaryDegrees() - 88.0;
          };
      case AUXILIARY_LEAD ->
          m.place().words().equals("closed end")
              ? cams.closedAuxiliaryDegrees() - cams.closedDegrees()
              : cams.openDegrees() - cams.openAuxiliaryDegrees();
      default -> cams.differentialDegrees();
    };
  }

  /** The auxiliary at +2.0° against an end switch at 0.0°. */
  @Test
  void theLeadIsMeasured() {
    JudgedRun run = judge(unit(cams(0.0, 2.0), 1));
    assertThat(measure(run, MeasureKind.AUXILIARY_LEAD, "closed end").value().orElseThrow())
        .isCloseTo(2.0, within(0.2));
    assertThat(order(run, "closed end").word()).isEqualTo(Word.PASS);
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  /** The auxiliary at −0.5° against an end switch at 0.0°, which cuts the motor before. */
  @Test
  void anAuxiliaryThatTrailsFails() {
    JudgedRun run = judge(unit(cams(0.0, -0.5), 1));
    AsOrdered order = order(run, "closed end");
    assertThat(order.word()).as(order.found()).isEqualTo(Word.FAIL);
    assertThat(order.found()).startsWith("auxiliary after end");
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(f -> f.startsWith("Wrong order of switches, closed end"));
    assertThat(order(run, "open end").word()).isEqualTo(Word.PASS);
  }

  /** An end switch that never trips is no proof of an order. */
  @Test
  void anEndThatIsNotReachedHasNoResult() {
    JudgedRun run = judge(unit(cams(-5.0, 2.0), 1));
    assertThat(order(run, "closed end").word()).isEqualTo(Word.NO_RESULT);
    assertThat(measure(run, MeasureKind.SWITCH_ERROR, "closed").note())
        .contains("it did not become made on the way from 5.");
    assertThat(run.passed()).isFalse();
  }

  @Test
  void aBenchWithoutSwitchesHasNoResult() {
    JudgedRun run =
        VirtualBench.with(unit(CAMS, 1))
            .tests(TESTS)
            .benchText(
                t ->
                    t.replace("\"switches\", ", "")
                        .replaceAll("(?s)\\[instrument.switches[^\\[]*", ""))
            .judge();
    List<AsOrdered> orders =
        run.orders().stream().filter(o -> o.isOf(AsOrdered.Subject.SWITCHES)).toList();
    assertThat(orders).hasSize(2).allMatch(o -> o.word() == Word.NO_RESULT);
    assertThat(run.tests().get(1).outcome()).isEqualTo("not done");
    assertThat(run.tests().get(1).reason()).isEqualTo("no instrument plays the role \"switches\"");
    assertThat(run.passed()).isFalse();
  }
}
