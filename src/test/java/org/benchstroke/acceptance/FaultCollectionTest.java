package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;
import org.benchstroke.verdict.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The faulty units of simulators/ in a routine acceptance on a bench with every instrument: what a
 * good test must conclude of each, and where it shows.
 */
class FaultCollectionTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private static JudgedRun judge(String unit) throws IOException {
    String text = Files.readString(ROUTINE);
    return VirtualBench.with(unit, BENCH).tests(text.substring(text.indexOf("[[test]]"))).judge();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "sticking-stem        | FAIL      | hysteresis + dead band of the stem",
        "sticky-seat          | FAIL      | travel error of the stem at 0 % down",
        "worn-sensor          | FAIL      | Restless at 50 %",
        "dead-spot            | NO_RESULT | impossible slew",
        "two-dead-spots       | NO_RESULT | impossible slew",
        "dead-band-too-small  | FAIL      | the dead band is too small",
        "long-coast           | FAIL      | hysteresis + dead band at",
        "ground-offset        | FAIL      | travel error at 25 % up",
        "swapped-leads        | FAIL      | Action is not as ordered",
        "stop-before-switch   | NO_RESULT | switches, open end",
        "auxiliary-trails     | FAIL      | auxiliary after end",
        "quadrant-off         | FAIL      | travel error of the stem",
        "bent-linkage         | FAIL      | linearity, independent of the stem",
        "thermal-trip         | FAIL      | look at motor, supply and thermal switch",
        "undervoltage         | FAIL      | stroke time",
        "hum-on-the-signal    | NO_RESULT | reads low by",
        "zero-shift           | FAIL      | the zero is shifted",
        "span-error           | FAIL      | the span is off",
        "cam-set-short        | FAIL      | the switch cuts the motor",
        "slack-after-sensor   | FAIL      | slack after the sensor",
        "wrong-fail-action    | FAIL      | Wrong on signal loss",
        "reversed-action      | FAIL      | Action is not as ordered"
      })
  void aFaultNeverPassesAndShowsWhereItMust(String unit, Word word, String shows)
      throws IOException {
    JudgedRun run = judge(unit);
    assertThat(run.passed()).as(run.reason()).isFalse();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(word);
    assertThat(run.reason() + run.findings() + run.orders()).contains(shows);
  }

  /** Clean by every limit; only the time that a reversal takes gives it away. */
  @Test
  void backlashShowsInTheDeadTimeOfAReversalAlone() throws IOException {
    JudgedRun run = judge("backlash-before-sensor");
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
    // 2 % of play at 6.67 %/s are 0.3 s.
    assertThat(deadTime(run, "10 % down") - deadTime(run, "10 % up")).isBetween(0.2, 0.4);
    JudgedRun sound = judge("healthy-b");
    assertThat(Math.abs(deadTime(sound, "10 % down") - deadTime(sound, "10 % up"))).isLessThan(0.1);
  }

  private static double deadTime(JudgedRun run, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.DEAD_TIME && m.place().equals(place))
        .findFirst()
        .orElseThrow()
        .value()
        .orElseThrow();
  }
}
