package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.function.Predicate;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Question;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.simulator.SimulatedBench;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A unit that moves while its motor supply must be off, and what only looks like one. */
class SupplyOffTest {
  private static final Path TWO_WIRE = Path.of("demo-data/benches/two-wire-feedback.toml");
  private static final String WELDED =
      """
      [[instrument_error]]
      on = "position input"
      role = "motor power"
      contact = "welded"
      """;
  private static final String POWER_LOSS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "power loss"
      at_pct = 50
      away_s = 8
      moments = ["at rest", "moving"]
      """;

  private static Event.Checked first(JudgedRun run) {
    return run.record()
        .events(Event.Checked.class)
        .filter(c -> c.outcome().equals("blocks"))
        .findFirst()
        .orElseThrow();
  }

  /** Wherever it stands: one that stands closed moves only once the signal asks it to open. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 2, 50, 98, 100})
  void aWeldedRelayIsNamedFirstAndEndsTheRun(double startPercent) {
    String start = "[mechanics]\nstart_pct = " + startPercent + "\n";
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", start + WELDED));
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.PREFLIGHT_FAILED);
    assertThat(bench.result().reason())
        .startsWith("motor supply off: the unit moves although the relay says that its motor")
        .contains("Keep clear of it", "switched off and locked by hand", "welded");
    assertThat(first(run).check()).isEqualTo("motor supply off");
    assertThat(run.record().events(Event.Commanded.class)).isEmpty();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
  }

  /** Slow, quick, and with as much noise as the preflight lets pass. */
  @ParameterizedTest
  @CsvSource({"5, 0.0", "15, 0.05", "60, 0.0", "60, 0.05"})
  void slowOrQuickAndInNoise(double strokeSeconds, double noisePercent) {
    String tables =
        "[motor]\nstroke_90_deg_s = "
            + strokeSeconds
            + "\n[sensor]\nnoise_pct = "
            + noisePercent
            + "\n";
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b", tables + WELDED))
            .unitType(
                t -> t.replaceFirst("stroke_time_s = \\S+", "stroke_time_s = " + strokeSeconds));
    JudgedRun run = bench.judge();
    assertThat(first(run).detail()).startsWith("the unit moves");
  }

  /** No relay, and the person did not switch it off. */
  @Test
  void aSupplyThatNobodySwitchedOffIsNamedToo() {
    VirtualBench bench = VirtualBench.with("healthy-b", TWO_WIRE);
    bench.unit().motorSupply(true);
    JudgedRun run = bench.askedBy(new Forgetful(bench.unit())).judge();
    assertThat(first(run).detail())
        .startsWith("the unit moves although its motor supply must be off now")
        .contains("Keep clear of it", "switched off and locked");
  }

  @ParameterizedTest
  @ValueSource(strings = {"while off", "always"})
  void whatFollowsTheLoopIsNoPosition(String when) {
    String echo =
        """
        [[instrument_error]]
        on = "position input"
        role = "position transmitter"
        loop_echo = "%s"
        """
            .formatted(when);
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", echo));
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.PREFLIGHT_FAILED);
    assertThat(first(run).check()).isEqualTo("position shown");
    assertThat(first(run).detail()).contains("is not the position", "register of the bench file");
    assertThat(bench.result().reason()).doesNotContain("dead spot", "sensor", "jump");
  }

  /** Air that is cut lets the spring drive it to its end, and there it stays. */
  @ParameterizedTest
  @ValueSource(
      strings = {"pneumatic-sound", "pneumatic-spring-opens", "healthy-b", "slack-after-sensor"})
  void aUnitThatStandsStillGoesOn(String unit) {
    VirtualBench bench = VirtualBench.with(unit);
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(run.record().events(Event.Checked.class))
        .anyMatch(c -> c.check().equals("motor supply off") && c.outcome().equals("ok"));
  }

  /** The contact welds after the preflight: a unit that keeps its supply does not pass. */
  @Test
  void aRelayThatWeldsInTheRunIsNamedBeforeThePowerLossTest() {
    VirtualBench bench = VirtualBench.with("healthy-b").tests(POWER_LOSS);
    bench.watchedBy(new Welds(bench, e -> e instanceof Event.TestBegan));
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).contains("the unit moves although the relay says");
    assertThat(run.passed()).isFalse();
    assertThat(run.orders()).noneMatch(o -> o.word() == Word.FAIL);
  }

  /** Or only while the test runs: it goes on to where it had been sent. */
  @Test
  void aUnitThatGoesOnToItsSetpointHasItsSupply() {
    VirtualBench bench = VirtualBench.with("healthy-b").tests(POWER_LOSS);
    bench.watchedBy(
        new Welds(bench, e -> e instanceof Event.Watched w && w.label().endsWith("at rest")));
    JudgedRun run = bench.judge();
    assertThat(bench.result().reason()).contains("and it went on to").contains("it had been sent");
    assertThat(run.passed()).isFalse();
    assertThat(run.orders()).noneMatch(o -> o.word() == Word.FAIL);
  }

  /** Gives the unit its supply back whatever the relay does, from an event on. */
  private static final class Welds implements Spectator {
    private final VirtualBench bench;
    private final Predicate<Event> when;
    private boolean welded;

    Welds(VirtualBench bench, Predicate<Event> when) {
      this.bench = bench;
      this.when = when;
    }

    @Override
    public void happened(Entry entry) {
      welded |= when.test(entry.event());
      if (welded) {
        bench.unit().motorSupply(true);
      }
    }

    @Override
    public void progressed(Progress progress) {
      // Only what happens matters.
    }
  }

  /** Says yes to everything, and leaves the supply on. */
  private record Forgetful(SimulatedBench bench) implements Operator {
    @Override
    public Answer answer(Question question) {
      return new Answer.Yes("yes");
    }

    @Override
    public void countDown() {
      bench.motorSupply(true);
    }
  }
}
