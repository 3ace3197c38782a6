package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.StringReader;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.xml.sax.InputSource;

class HtmlReportTest {
  private final HtmlReport report = new HtmlReport();

  @Test
  void theVerdictComesFirstAsWordShapeAndReason() {
    String html = html(SampleRuns.spanFailWithStem());
    assertThat(html).startsWith("<!DOCTYPE html>\n<html lang=\"en\">");
    assertThat(html).contains("<meta charset=\"UTF-8\">");
    assertThat(html.indexOf("class=\"verdict fail\"")).isBetween(0, html.indexOf("<h2>"));
    assertThat(html).contains("href=\"#mark-fail\"").contains("<p class=\"word\">failed</p>");
    assertThat(html).contains("Travel error at 100 % up is +1.62 % ± 0.13 %, beyond the limit");
    assertThat(html).doesNotContain("STEM NOT PROVEN").doesNotContain("watermark\" aria");
  }

  @Test
  void aSimulatedRunSaysSoOnEveryPageAndIsNoCertificate() {
    String html = html(SampleRuns.cleanPass());
    assertThat(html).contains("<div class=\"watermark\"");
    assertThat(html).contains("@page { @top-right { content: \"SIMULATED – not a real unit\"; } }");
    assertThat(html).contains("This report can't serve as a certificate.");
    assertThat(html).contains("SIMULATED: a clean unit, invented. No real unit was tested.");
    assertThat(html).contains("Unit QT-104-0231 – simulated");
    assertThat(html).contains("STEM NOT PROVEN");
  }

  @Test
  void theReportNumberStandsOnEveryPageAndTheEndIsMarked() {
    String html = html(SampleRuns.cleanPass());
    assertThat(html)
        .contains(
            "@page { @top-left { content: \"Bench test report"
                + " BS-QT-104-0231-20260304T091230Z\"; } }");
    assertThat(html).contains("counter(page) \" of \" counter(pages)");
    assertThat(html).contains("— end of report —");
    assertThat(html).contains("This report makes no claim of accreditation.");
  }

  @Test
  void anInterruptedRunIsNamedAndSaysWhatIsMissing() {
    String text = text(SampleRuns.interrupted());
    assertThat(text)
        .contains("no result The run ended before the travel test was complete.")
        .contains("INTERRUPTED: the record has no closing line.")
        .contains("INCOMPLETE: the run is not whole and valid.")
        .contains("DAMAGED RECORD: torn last line.")
        .contains("travel error void 1 no reply from the transmitter")
        .contains("signal loss not done 0 the run ended before")
        .contains("4 mA commanded, NOT CONFIRMED – no reply within 1 s")
        .contains("travel error, 8 places did not settle, or was not reached no result – – –")
        .contains("50 – – – – – –");
  }

  @Test
  void nothingBetterThanNoResultIsShownForARunThatIsNotWhole() {
    JudgedRun run = SampleRuns.passButIncomplete();
    assertThat(ReportPages.shown(run)).isEqualTo(Word.NO_RESULT);
    assertThat(html(run)).contains("class=\"verdict no-result\"").doesNotContain("verdict pass");
    assertThat(ReportPages.shown(SampleRuns.cleanPass())).isEqualTo(Word.PASS);
  }

  @Test
  void theHeaderTellsUnitOrderRuleAndTruth() {
    assertThat(text(SampleRuns.cleanPass()))
        .contains("Unit, serial number QT-104-0231")
        .contains("Order order 4711-B")
        .contains("Operator R. Example")
        .contains("Date 2026-03-04 09:12 UTC")
        .contains("Procedure routine, five points, version 3")
        .contains("Signal range 4–20 mA, direct action")
        .contains("close within 1 s; holds at 3.9 mA, lost at 3.5 mA")
        .contains("guard band w = U (ILAC-G8:09/2019 4.2.2, 4.2.3), agreed beforehand")
        .contains("the unit's own feedback only; stem not proven")
        .contains("Program benchstroke 0.1.0")
        .contains("Record run-7.jsonl");
  }

  @Test
  void measuresAreRoundedToTheirUncertaintyAndCarryTheirWord() {
    assertThat(text(SampleRuns.spanFailWithStem()))
        .contains("travel error at 75 % up conditional pass +0.93 % 0.11 % 1.91 ±1 % 8.7 91.2 %")
        .contains("travel error at 75 % down conditional fail +1.04 % 0.11 % 1.91 ±1 % 8.7 21.4 %")
        .contains("travel error at 100 % up fail +1.62 % 0.11 % 1.91 ±1 % 8.7 < 0.1 %")
        .contains("stroke time, opening (5–95 % ÷ 0.9) mean of 3 strokes pass 15.31 s 0.05 s")
        .contains("travel error of the stem at 100 % down fail +2.14 % 0.11 %");
  }

  @Test
  void aMeasureWithoutALimitIsNotJudged() {
    assertThat(text(SampleRuns.cleanPass()))
        .contains("Measured and not judged No limit was agreed for these.")
        .contains("linearity, independent +0.05 % 0.11 % 1.91 feedback");
  }

  @Test
  void theTravelTableShowsBothBranchesAndBothTruths() {
    String text = text(SampleRuns.spanFailWithStem());
    assertThat(text)
        .contains("by the unit's feedback")
        .contains("50 +0.79 0.11 +0.88 0.11 +0.09 0.11")
        .contains("by the angle reference on the stem")
        .contains("50 +0.31 0.11 +1.33 0.11 +1.02 0.11")
        .contains("100 +1.13 0.11 +2.14 0.11 +1.01 –");
  }

  @Test
  void everyJudgedBudgetIsThereAndOnlyTheWidestOfItsKindIsOpen() {
    JudgedRun run = SampleRuns.spanFailWithStem();
    String html = html(run);
    long judged =
        run.judgements().stream()
            .filter(j -> j.limit().isPresent() && j.measure().budget().isPresent())
            .count();
    assertThat(judged).isGreaterThan(20L);
    assertThat(html.split("<details", -1).length - 1).isGreaterThanOrEqualTo((int) judged);
    assertThat(html.split("<details open", -1).length - 1).isBetween(2, 8);
    assertThat(text(run))
        .contains("travel error at 100 % down, stem: +2.14 % ± 0.11 % (u = 0.060, ν > 1000")
        .contains("mean of the position at rest s = 0.012 % A, readings, ÷ 1 0.012 1.00 0.012 19")
        .contains("± 0.012 mA B, rectangular, ÷ √3 0.0069 6.25 0.043 ∞")
        .contains("effective degrees of freedom > 1000. k = 1.91 for 95 %, from the shape of the")
        .contains("U = k·u = 0.11 %. Limit ±1 %: accuracy ratio, tolerance ÷ U, 8.7.");
  }

  @Test
  void theRiskOfTheRuleIsSaidForEachLimit() {
    assertThat(text(SampleRuns.spanFailWithStem()))
        .contains("A pass is wrong if the true value is beyond the limit")
        .contains("travel error ±1 % 0.11 % at 0 % up 8.7 0.11 % 2.5 % 2.5 %");
  }

  @Test
  void instrumentsCarryCertificatesAndAnOverdueOneIsNamed() {
    assertThat(text(SampleRuns.cleanPass()))
        .contains("OVERDUE: the calibration of position input was due on 2026-01-31.")
        .contains(
            "loop source signal source Ostrava Invented LS-2 serial 8812 CAL-8812 laboratory not"
                + " stated 2025-09-30 2026-09-30 confirmed")
        .contains("2026-01-31 – OVERDUE can't tell");
  }

  @Test
  void faultsChecksCautionsAndTheSafeSignalAreThere() {
    assertThat(text(SampleRuns.cleanPass()))
        .contains("travel error complete 2 – attempt 1 void: gap of 0.4 s")
        .contains("79.4 s gap position input no reading for 0.5 s, 0.25 s is allowed")
        .contains("accuracy ratio warning 7.7: limit 1 % ÷ U 0.13 %")
        .contains("Bench only: the valve is out of the line and without pressure. enter pressed")
        .contains("4 mA, confirmed by the source – source reports 4.000 mA")
        .contains("signal loss: open loop close within 1 s began to close");
  }

  @Test
  void everyPictureIsWellFormedAndNamed() throws Exception {
    for (JudgedRun run :
        List.of(SampleRuns.cleanPass(), SampleRuns.spanFailWithStem(), SampleRuns.interrupted())) {
      List<String> pictures =
          Pattern.compile("<svg xmlns.*?</svg>", Pattern.DOTALL)
              .matcher(html(run))
              .results()
              .map(MatchResult::group)
              .toList();
      assertThat(pictures).hasSize(3);
      for (String picture : pictures) {
        var root =
            DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(picture)))
                .getDocumentElement();
        assertThat(root.getAttribute("role")).isEqualTo("img");
        assertThat(root.getElementsByTagName("desc").item(0).getTextContent()).isNotBlank();
      }
    }
  }

  @Test
  void thePageNeedsNothingBesideItself() {
    String html = html(SampleRuns.spanFailWithStem());
    assertThat(html).doesNotContain("<script").doesNotContain("<link").doesNotContain("@import");
    assertThat(html.replace("xmlns=\"http://www.w3.org/2000/svg\"", "")).doesNotContain("http");
    assertThat(html).doesNotContain(" src=").doesNotContain(" opacity=");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<script>alert(1)</script>",
        "\"><img src=x onerror=alert(1)>",
        "</style></title><script>",
        "\";}</style><script>x"
      })
  void hostileWordsStayWords(String hostile) {
    String html = html(SampleRuns.withSerial(hostile));
    assertThat(html).doesNotContain("<script").doesNotContain("<img");
    assertThat(html.split("</style>", -1)).hasSize(2);
    assertThat(html.split("</title>\n<style>", -1)).hasSize(2);
    assertThat(html).contains("&lt;");
  }

  @Test
  void aReportNumberIsPlainWhateverTheSerial() {
    assertThat(ReportPages.number(SampleRuns.withSerial("<ä> №/7")))
        .isEqualTo("BS-7-20260304T091230Z");
    assertThat(ReportPages.number(SampleRuns.withSerial("")))
        .isEqualTo("BS-no-serial-20260304T091230Z");
    assertThat(ReportPages.number(SampleRuns.withSerial("x".repeat(300)))).hasSize(3 + 40 + 17);
    assertThatThrownBy(
            () ->
                new ReportPage(
                    "a\"b",
                    "",
                    Word.PASS,
                    "",
                    "",
                    List.of(),
                    false,
                    List.of(),
                    new Section("", List.of()),
                    ""))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void theSameRunIsTheSameBytesInEveryPlace() {
    String here = html(SampleRuns.spanFailWithStem());
    String there = Elsewhere.call(() -> html(SampleRuns.spanFailWithStem()));
    assertThat(there).isEqualTo(here);
    assertThat(here).doesNotContain("\r");
  }

  private String html(JudgedRun run) {
    return report.html(new TwinAndCauses(run), Optional.of("run-7.jsonl"));
  }

  /** The page's words in reading order, without elements and pictures. */
  private String text(JudgedRun run) {
    return html(run)
        .replaceAll("(?s)<(style|svg|title).*?</\\1>", " ")
        .replaceAll("(?s)<[^>]*>", " ")
        .replace("&#39;", "'")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replaceAll("(?U)\\s+", " ");
  }
}
