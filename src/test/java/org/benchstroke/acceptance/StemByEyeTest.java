package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.run.Answer;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunEnded;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** A protractor on the stem, read by a person at each point of rest. */
class StemByEyeTest {
  private static final String PROTRACTOR =
      """

      [[instrument]]
      name = "protractor"
      roles = ["angle reference"]
      speaks = "typed in"
      serial = "PR-1"
      certificate = "C-1"
      calibrated = 2026-01-15
      due = 2027-12-31
      [instrument.angle_reference]
      accuracy = "±0.1 °"
      resolution_deg = 0.1
      scatter_deg = 0.1
      """;

  private final List<DisplayQuestion> asked = new ArrayList<>();

  /** Says yes to all and reads by a function of the bench. */
  private Operator reader(ToDoubleFunction<DisplayQuestion> eye) {
    return question -> {
      if (!(question instanceof DisplayQuestion display)) {
        return new Answer.Yes("yes, in a test");
      }
      asked.add(display);
      double value = eye.applyAsDouble(display);
      return Double.isNaN(value) ? Answer.no() : new Answer.Figure(value);
    };
  }

  /** The slack unit without its own angle reference; a person looks for 20 s at each point. */
  private VirtualBench bench() {
    var slack = VirtualBench.simulation("slack-after-sensor");
    var blind = slack.withAngleReference(false);
    return VirtualBench.with(blind).benchText(text -> text + PROTRACTOR);
  }

  private static double look(VirtualBench bench) {
    bench.clock().waitUntil(bench.clock().nanos() + 20_000_000_000L);
    return Math.rint(bench.unit().truth().stemDegrees() * 10.0) / 10.0;
  }

  @Test
  void theStemIsProvenAndItsSlackIsFound() {
    VirtualBench bench = bench();
    JudgedRun run = bench.askedBy(reader(question -> look(bench))).judge();

    assertThat(bench.result().reason()).isEqualTo("all tests of the procedure are done");
    // Eight points of the cycle, and mid travel three times more each way.
    assertThat(asked).hasSize(14).allMatch(q -> q.instrument().equals("protractor"));
    assertThat(run.stemProven()).isTrue();
    assertThat(run.stem()).hasSize(8).extracting(RestReading::samples).allMatch(n -> n == 1);
    assertThat(run.sentences()).anyMatch(f -> f.contains("slack after the sensor"));
    assertThat(run.verdict()).isNotEqualTo(Word.PASS);
    assertThat(run.record().events(Event.Faulted.class)).isEmpty();
    assertThat(run.record().events(Event.Sampled.class).filter(s -> s.channel().equals("stem")))
        .hasSize(14)
        .allMatch(s -> s.raw().startsWith("typed in by virtual: "));
    assertThat(run.record().events(Event.Checked.class))
        .anyMatch(c -> c.check().equals("identity of protractor") && c.outcome().equals("warning"));
  }

  @Test
  void theBudgetHasTheStatedScatterAndTheStepInPlaceOfTheWindow() {
    VirtualBench bench = bench();
    JudgedRun run = bench.askedBy(reader(question -> look(bench))).judge();
    Measure error =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.kind() == MeasureKind.TRAVEL_ERROR && m.truth() == Truth.STEM)
            .findFirst()
            .orElseThrow();
    assertThat(error.note()).contains("read by eye");
    List<Component> components = error.budget().orElseThrow().components();
    // 0.1° of 90° are 0.111 %; half a step of 0.1° over √3 is 0.0289° = 0.0321 %.
    assertThat(components)
        .anySatisfy(
            c -> {
              assertThat(c.source()).startsWith("reading by eye");
              assertThat(c.evaluation()).isEqualTo(Component.Evaluation.TYPE_B_NORMAL);
              assertThat(c.contribution()).isCloseTo(0.1 / 0.9, within(1e-9));
            })
        .anySatisfy(
            c -> {
              assertThat(c.source()).isEqualTo("angle reference resolution");
              assertThat(c.contribution()).isCloseTo(0.05 / Math.sqrt(3) / 0.9, within(1e-9));
            })
        .noneMatch(c -> c.source().startsWith("rest, scatter"));
  }

  @Test
  void whoStopsReadingStopsTheRunAndTheUnitIsSafe() {
    VirtualBench bench = bench();
    JudgedRun run = bench.askedBy(reader(question -> Double.NaN)).judge();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(bench.result().reason()).contains("stem angle").contains("travel 25 up");
    assertThat(bench.result().safe().confirmed()).isTrue();
    assertThat(run.passed()).isFalse();
  }

  @Test
  void aUnitThatMovesWhileItIsReadIsNoticed() {
    VirtualBench bench = bench();
    boolean[] pushed = {false};
    bench.askedBy(
        reader(
            question -> {
              double value = look(bench);
              if (!pushed[0] && question.point().equals("travel 50 up")) {
                pushed[0] = true;
                // Someone takes the motor power away and the signal is not followed any more.
                bench
                    .unit()
                    .connect(org.benchstroke.simulator.BuiltInBench.SOURCE)
                    .feed("SOUR:CURR 0.016\n".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
                look(bench);
              }
              return value;
            }));
    JudgedRun run = bench.judge();
    assertThat(run.record().events(Event.Faulted.class))
        .anyMatch(
            f -> f.fault() == RunFault.MOVED_WHILE_READ && f.detail().contains("travel 50 up"));
    // The test is begun anew and then complete.
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(run.stem()).hasSize(8);
  }

  @Test
  void whatIsTypedMustBeANumberThatCanBe() {
    DisplayQuestion question =
        new DisplayQuestion("protractor", "stem angle", "travel 25 up", "°", 0.5, -9.0, 99.0);
    assertThat(question.number("45.5")).hasValue(45.5);
    assertThat(question.number(" 45,5 ")).hasValue(45.5);
    assertThat(question.number("-0.5")).hasValue(-0.5);
    for (String typed : List.of("", " ", "abc", "455", "4 5", "NaN", "1e1", "-10", "45.5°")) {
      assertThat(question.number(typed)).as(typed).isEmpty();
    }
    assertThat(question.allowed()).isEqualTo("a number, -9 to 99 °");
    assertThat(question.words()).contains("\"protractor\"").contains("travel 25 up");
  }
}
