package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The pneumatic units of simulators/ in an acceptance: what it must conclude of each. */
class PneumaticTest {
  private static final Path ACCEPTANCE = Path.of("demo-data/procedures/pneumatic-acceptance.toml");

  private static JudgedRun judge(String unit) throws IOException {
    String text = Files.readString(ACCEPTANCE);
    return VirtualBench.with(unit).tests(text.substring(text.indexOf("[[test]]"))).judge();
  }

  @Test
  void soundUnitPasses() throws IOException {
    JudgedRun run = judge("pneumatic-sound");
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "pneumatic-sticking     | FAIL | hunting at 50 %",
        // Hooke's law: (3.4 − 2)/(4 − 2) bar make 70 % of travel, less 1 % of friction.
        "pneumatic-low-supply   | FAIL | stood at 69.0 % with a setpoint of 100.0 %",
        "pneumatic-spring-opens | FAIL | signal loss: lost"
      })
  void aFaultNeverPassesAndShowsWhereItMust(String unit, Word word, String shows)
      throws IOException {
    JudgedRun run = judge(unit);
    assertThat(run.passed()).as(run.reason()).isFalse();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(word);
    assertThat(run.reason() + run.sentences() + run.orders()).contains(shows);
    Diagnosis diagnosis = Diagnosis.of(run);
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.NOT_COUNTED);
    assertThat(diagnosis.lines()).singleElement().asString().contains("this one is pneumatic");
    assertThat(Twin.of(run).words().get(0)).contains("this one is pneumatic");
  }
}
