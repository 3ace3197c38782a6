package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.SupplyParameters;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** The supply at the unit's terminals, at rest and while the motor runs. */
class SupplyTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "supply"
      starts = 3
      """;

  /** 24 V through leads: 0.1 A of electronics always, about 0.8 A more while the motor runs. */
  private static JudgedRun judge(double leadOhms) {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    ModelParameters parameters = healthy.parameters();
    SupplyParameters leads = parameters.supply().withLeads(leadOhms);
    Simulation unit = healthy.withUnit(parameters.with(leads));
    return VirtualBench.with(unit, BENCH)
        .tests(TESTS)
        .unitType(
            t ->
                t.replaceAll("(?s)\\[limits].*", "")
                    + """
                    [limits]
                    supply_at_rest_V = { min = 21.6, max = 26.4 }
                    supply_lowest_V = { min = 21.6, max = 26.4 }
                    supply_sag_pct = 10.0
                    """)
        .judge();
  }

  private static Measure measure(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void shortLeadsPass() {
    JudgedRun run = judge(0.5);
    // By hand: 24 V − 0.5 Ω × 0.1 A at rest; 0.5 Ω × 0.9 A less while it runs, a little more load.
    assertThat(measure(run, MeasureKind.SUPPLY_AT_REST).value().orElseThrow())
        .isCloseTo(23.95, within(0.03));
    assertThat(measure(run, MeasureKind.SUPPLY_LOWEST).value().orElseThrow())
        .isBetween(22.2, 23.55);
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @Test
  void longLeadsSagTooFar() {
    JudgedRun run = judge(3.0);
    // By hand: 24 V − 3 Ω × 0.1 A at rest, and 3 Ω × 0.8 A less or lower while it runs.
    Measure rest = measure(run, MeasureKind.SUPPLY_AT_REST);
    assertThat(rest.value().orElseThrow()).isCloseTo(23.7, within(0.03));
    assertThat(rest.budget().orElseThrow().expand().half()).isBetween(0.015, 0.03);
    assertThat(measure(run, MeasureKind.SUPPLY_LOWEST).value().orElseThrow()).isLessThan(21.4);
    double sag = measure(run, MeasureKind.SUPPLY_SAG).value().orElseThrow();
    assertThat(sag).isGreaterThan(10.0);
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
  }

  @Test
  void withoutAMeterItIsNotDone() {
    JudgedRun run = VirtualBench.with("healthy-b").tests(TESTS).judge();
    assertThat(run.passed()).isFalse();
    assertThat(run.tests().get(1).outcome()).isEqualTo("not done");
    assertThat(run.tests().get(1).reason()).contains("\"supply meter\"");
  }

  @Test
  void aStiffSupplyDoesNotSag() {
    Measure sag = measure(judge(0.0), MeasureKind.SUPPLY_SAG);
    double half = sag.budget().orElseThrow().expand().half();
    assertThat(sag.value().orElseThrow()).isCloseTo(0.0, within(half));
  }
}
