package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.junit.jupiter.api.Test;

class ResultTableTest {
  @Test
  void wordsAndSymbolsStandInColumns() {
    String text = ResultTable.text(SampleRuns.spanFailWithStem(), 100);
    assertThat(text)
        .containsPattern("travel error, 75 % up +\\+0.93 % +0.11 %")
        .contains("hysteresis + dead band of the stem,\n  by adjacent passes, 50 %")
        .contains("(✓) conditional pass   91.2 %")
        .contains("(✗) conditional fail   21.4 %")
        .contains(" ✗  fail              < 0.1 %")
        .doesNotContain("stem not proven")
        .doesNotContain("\u001b");
    assertThat(verdict(text)).startsWith("✗ FAILED – Travel error at 100 % up is +1.62 % ± 0.13 %");
    List<String> rows = text.lines().filter(line -> line.contains("travel error,")).toList();
    assertThat(rows.stream().map(line -> line.indexOf('±')).distinct()).hasSize(1);
    assertThat(rows.stream().map(String::length).distinct()).hasSize(1);
  }

  @Test
  void noLineIsWiderThanAHundredColumns() {
    assertThat(
            Stream.of(
                    SampleRuns.cleanPass(), SampleRuns.spanFailWithStem(), SampleRuns.interrupted())
                .flatMap(run -> ResultTable.text(run, 100).lines()))
        .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(100));
  }

  /** Wherever in the line it comes. */
  @Test
  void aPerCentSignStaysWithItsNumber() {
    for (int i = 0; i < 8; i++) {
      String reason = "x".repeat(i + 1) + " and 100 %".repeat(20);
      assertThat(ResultTable.text(SampleRuns.withReason(reason), 100))
          .contains("100 % and")
          .doesNotContainPattern("(?m)^ *%");
    }
  }

  @Test
  void whatMustNotBeMissedIsSaid() {
    assertThat(ResultTable.text(SampleRuns.cleanPass(), 100))
        .contains("! simulated, not a real unit: a clean unit, invented")
        .contains("! stem not proven")
        .contains(
            "✓ pass: signal loss: low – ordered: holds at 3.9 mA; found: moved 0.02 % in 20 s");
    String interrupted = ResultTable.text(SampleRuns.interrupted(), 100);
    assertThat(verdict(interrupted)).startsWith("? NO RESULT – ");
    assertThat(interrupted).contains("! incomplete").contains(" ?  no result");
    assertThat(verdict(ResultTable.text(SampleRuns.cleanPass(), 100))).startsWith("✓ PASSED – ");
    assertThat(verdict(ResultTable.text(SampleRuns.passButIncomplete(), 100)))
        .startsWith("? NO RESULT")
        .doesNotContain("PASS");
  }

  /** The verdict is the last line, where a terminal leaves it in sight. */
  private static String verdict(String text) {
    return text.lines().reduce((first, second) -> second).orElseThrow();
  }

  @Test
  void everyWordHasItsOwnSymbol() {
    assertThat(Stream.of(Word.values()).map(word -> ResultTable.symbol(Optional.of(word))))
        .doesNotHaveDuplicates()
        .allSatisfy(symbol -> assertThat(symbol).hasSize(3));
  }

  /** A terminal of 80 columns is what most of them open with. */
  @Test
  void onANarrowTerminalNothingIsLostAndNothingIsBroken() {
    for (JudgedRun run :
        List.of(SampleRuns.cleanPass(), SampleRuns.spanFailWithStem(), SampleRuns.interrupted())) {
      String narrow = ResultTable.text(run, 80);
      assertThat(narrow.lines()).allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
      assertThat(words(narrow)).isEqualTo(words(ResultTable.text(run, 100)));
    }
  }

  /** All that is said, in no order and without the lines between. */
  private static List<String> words(String text) {
    return Stream.of(text.toLowerCase(Locale.ROOT).split("\\s+", -1))
        .map(word -> word.replaceAll("[─,]", ""))
        .filter(word -> !word.isEmpty())
        .sorted()
        .toList();
  }

  @Test
  void aTerminalIsNotObeyed() {
    String text = ResultTable.text(SampleRuns.withReason("red \u001b[31m text"), 100);
    assertThat(text).doesNotContain("\u001b").contains("red \\u001b[31m text");
  }

  @Test
  void figuresRoundToTwoDigitsOfU() {
    assertThat(Figures.decimals(0.0996)).isEqualTo(2);
    assertThat(Figures.decimals(0.1176)).isEqualTo(2);
    assertThat(Figures.decimals(1.26)).isEqualTo(1);
    assertThat(Figures.decimals(12.6)).isZero();
    assertThat(Figures.decimals(126.0)).isZero();
    assertThat(Figures.decimals(0.0)).isEqualTo(2);
  }

  /** JCGM 100:2008 7.2.6 and EA-4/02 M:2022 6.3: at most two digits; an only one is rounded up. */
  @Test
  void anUncertaintyOfASingleDigitIsNotUnderstated() {
    assertThat(Figures.decimals(0.0123)).isEqualTo(2);
    assertThat(Figures.half(0.0123)).isEqualTo("0.02");
    assertThat(Figures.half(0.0001)).isEqualTo("0.01");
    assertThat(Figures.half(0.05000000001)).isEqualTo("0.05");
    assertThat(Figures.half(0.1149)).isEqualTo("0.11");
    assertThat(Figures.half(0.0996)).isEqualTo("0.10");
    assertThat(Figures.half(12.6)).isEqualTo("13");
  }
}
