package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** The motor supply fails and returns, at rest and on the way. */
class PowerLossTest {
  private static final Path RELAY = Path.of("demo-data/benches/motor-power-relay.toml");

  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "power loss"
      at_pct = 50
      away_s = 4
      moments = ["at rest", "moving"]
      """;

  @Test
  void theUnitStaysAndComesBack() {
    VirtualBench bench = VirtualBench.with("healthy-b").tests(TESTS);
    RunRecord record = bench.run();
    JudgedRun run = VirtualBench.judge(record);

    Measure atRest = drift(run, "at rest");
    assertThat(atRest.value().orElseThrow()).isCloseTo(0.0, within(0.05));
    // The brake stops the simulated motor within a few hundredths of a second: at 100 % in 15 s
    // some
    // tenths of a percent, and the record can't tell them from the instant of the cut.
    Measure moving = drift(run, "moving");
    double half = moving.budget().orElseThrow().expand().half();
    assertThat(moving.value().orElseThrow()).isCloseTo(0.2, within(half));
    assertThat(run.orders())
        .filteredOn(o -> o.isOf(AsOrdered.Subject.POWER_LOSS))
        .extracting(AsOrdered::word)
        .containsExactly(Word.PASS, Word.PASS);
    assertThat(
            record.events(Event.Cautioned.class).filter(c -> c.id().equals("power loss")).count())
        .isEqualTo(1);
    assertThat(bench.unit().motorSupply()).isTrue();
  }

  @Test
  void withoutARelayItIsNotDoneAndNeverPassed() {
    VirtualBench bench =
        VirtualBench.with("healthy-b", Path.of("demo-data/benches/two-wire-feedback.toml"))
            .tests(TESTS);
    JudgedRun run = bench.judge();

    assertThat(drift(run, "moving").value()).isEmpty();
    assertThat(run.tests())
        .anySatisfy(
            t -> {
              assertThat(t.outcome()).isEqualTo("not done");
              assertThat(t.reason()).isEqualTo("no instrument plays the role \"motor power\"");
            });
    assertThat(run.orders())
        .filteredOn(o -> o.isOf(AsOrdered.Subject.POWER_LOSS))
        .extracting(AsOrdered::word)
        .containsOnly(Word.NO_RESULT);
    assertThat(run.verdict()).isNotEqualTo(Word.PASS);
  }

  /**
   * A relay that did not confirm may have opened: the next attempt sees to it that there is power.
   */
  @Test
  void aRelayInDoubtIsSwitchedOnAgainForTheNextAttempt() {
    double cut = firstCut(VirtualBench.with("healthy-b", RELAY).tests(TESTS).run());
    // The setting and what asks after it once its 0.5 s are over, but not the next attempt.
    String lost = Scripted.fault("relay module", "drop", Scripted.during(cut - 0.02, 0.53));
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b", lost), RELAY).tests(TESTS);
    JudgedRun run = bench.judge();

    assertThat(run.tests()).anyMatch(t -> t.name().equals("power loss") && t.attempts() == 2);
    assertThat(run.orders())
        .filteredOn(o -> o.isOf(AsOrdered.Subject.POWER_LOSS))
        .extracting(AsOrdered::word)
        .containsExactly(Word.PASS, Word.PASS);
    assertThat(bench.unit().motorSupply()).isTrue();
  }

  /** When the test first cut the motor supply, s of the bench. */
  private static double firstCut(RunRecord record) {
    return record.entries().stream()
            .dropWhile(
                e -> !(e.event() instanceof Event.TestBegan b && b.test().equals("power loss")))
            .filter(e -> e.event() instanceof Event.Powered powered && !powered.on())
            .mapToLong(Entry::nanos)
            .findFirst()
            .orElseThrow()
        / 1e9;
  }

  private static Measure drift(JudgedRun run, String place) {
    List<Measure> measures =
        run.judgements().stream()
            .map(j -> j.measure())
            .filter(
                m -> m.kind() == MeasureKind.POWER_LOSS_DRIFT && m.place().words().equals(place))
            .toList();
    assertThat(measures).hasSize(1);
    return measures.get(0);
  }
}
