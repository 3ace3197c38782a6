package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Answer;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunEnded;
import org.junit.jupiter.api.Test;

/** A loop meter without a port, read by a person before anything moves. */
class LoopByEyeTest {
  private final List<DisplayQuestion> asked = new ArrayList<>();

  /** The bench of the healthy unit; its meter has only a display of 0.01 mA. */
  private static VirtualBench bench() {
    return VirtualBench.with("healthy-b").benchText(LoopByEyeTest::withoutPort);
  }

  private static String withoutPort(String bench) {
    String port = "(?s)(roles = \\[\"loop meter\"]\\n)speaks = .*?reply_timeout_ms = 500\\n";
    String typed = bench.replaceFirst(port, "$1speaks = \"typed in\"\n");
    String coarse = typed.replace("resolution_mA = 0.0001\n", "resolution_mA = 0.01\n");
    assertThat(coarse).contains("speaks = \"typed in\"").contains("resolution_mA = 0.01\n");
    return coarse;
  }

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

  /** A person looks for 20 s and reads to the display's step. */
  private static double look(VirtualBench bench) {
    bench.clock().waitUntil(bench.clock().nanos() + 20_000_000_000L);
    return Math.rint(bench.trueLoopMilliamps() * 100.0) / 100.0;
  }

  @Test
  void theLoopIsReadAtThreeCurrentsAndNotDuringTheTests() {
    VirtualBench bench = bench();
    JudgedRun run = bench.askedBy(reader(question -> look(bench))).judge();

    assertThat(bench.result().reason()).isEqualTo("all tests of the procedure are done");
    assertThat(asked)
        .extracting(DisplayQuestion::point)
        .containsExactly("source at 4.000 mA", "source at 12.000 mA", "source at 20.000 mA");
    assertThat(asked).allMatch(q -> q.instrument().equals("loop meter") && q.low() == 0.0);
    List<Event.Sampled> loop =
        run.record().events(Event.Sampled.class).filter(s -> s.channel().equals("loop")).toList();
    assertThat(loop).hasSize(3).allMatch(s -> s.raw().startsWith("typed in by virtual: "));
    assertThat(loop.get(1).value()).isCloseTo(12.0, within(0.011));
    assertThat(checks(run.record(), "loop at "))
        .hasSize(3)
        .allMatch(check -> check.outcome().equals("ok"));
    assertThat(checks(run.record(), "loop during the tests"))
        .singleElement()
        .satisfies(
            check -> {
              assertThat(check.outcome()).isEqualTo("warning");
              assertThat(check.detail()).contains("typed in by virtual").contains("± 0.005 mA");
            });
    assertThat(run.sentences()).anyMatch(f -> f.startsWith("Setpoint proven before motion only"));
    assertThat(run.verdict()).isEqualTo(Word.PASS);
  }

  @Test
  void aLoopThatCarriesSomethingElseBlocksMotion() {
    VirtualBench bench = bench();
    RunRecord record =
        bench.askedBy(reader(q -> q.point().contains("20") ? 17.14 : look(bench))).run();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.PREFLIGHT_FAILED);
    assertThat(bench.result().reason()).contains("loop at 20 mA").contains("17.140 mA");
    assertThat(record.events(Event.Commanded.class)).isEmpty();
    assertThat(bench.result().safe().confirmed()).isTrue();
  }

  @Test
  void whoDoesNotReadStopsTheRunBeforeMotion() {
    VirtualBench bench = bench();
    RunRecord record = bench.askedBy(reader(question -> Double.NaN)).run();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(bench.result().reason())
        .isEqualTo("the loop current (source at 4.000 mA) was not read and typed in");
    assertThat(record.events(Event.Commanded.class)).isEmpty();
    assertThat(bench.result().safe().confirmed()).isTrue();
  }

  private static List<Event.Checked> checks(RunRecord record, String start) {
    return record.events(Event.Checked.class).filter(c -> c.check().startsWith(start)).toList();
  }
}
