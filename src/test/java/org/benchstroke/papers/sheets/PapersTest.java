package org.benchstroke.papers.sheets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.pdf.Pdf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The annex, the workshop sheet and the label. */
class PapersTest {
  @TempDir Path folder;

  private Path run(String simulation) {
    return RealRecord.of(VirtualBench.with(simulation), folder.resolve(simulation + ".jsonl"));
  }

  /** Of sound and of faulty units, of those that can't be told apart and of a run that ended. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "healthy-b",
        "zero-shift",
        "slack-after-sensor",
        "reversed-action",
        "wrong-fail-action",
        "loop-resistance-too-high",
        "dead-spot",
        "two-dead-spots",
        "worn-sensor",
        "pneumatic-sticking"
      })
  void aWorkshopSheetHasOnePage(String simulation) throws Exception {
    Subject subject = Issues.subject(run(simulation));
    for (PaperSize size : PaperSize.values()) {
      Pdf sheet = new Pdf(new Papers().sheet(subject, Issues.issue(size, Language.ENGLISH)));
      assertThat(sheet.pages()).as(simulation + " " + size).isEqualTo(1);
      assertThat(sheet.text())
          .contains("QT-104-0231")
          .contains("Power off and locked")
          .contains(Headline.of(subject, new Terms(Words.of(Language.ENGLISH))).word());
    }
  }

  @Test
  void theSheetSaysWhatFailsByHowMuchAndWhatToTurn() throws Exception {
    Subject subject = Issues.subject(run("zero-shift"));
    Pdf sheet = new Pdf(new Papers().sheet(subject, Issues.issue())).isValid();
    assertThat(sheet.text())
        .contains("Failed")
        .containsPattern("Travel error \\+1\\.\\d+ % ± 0\\.\\d+ %.* ±1 % ■ Failed")
        .containsPattern("0\\.\\d+ % beyond")
        .containsPattern("\\d+ of them, worst at")
        .contains("Zero shift")
        .containsPattern("after the cams \\(by −1\\.\\d+ ± 0\\.\\d+ %\\)")
        .contains("“Short acceptance”, the whole procedure, after any adjustment");
    String german =
        new Pdf(new Papers().sheet(subject, Issues.issue(PaperSize.A4, Language.GERMAN))).text();
    assertThat(german).contains("Werkstattblatt").contains("Nicht bestanden").contains("außerhalb");
  }

  @ParameterizedTest
  @EnumSource(LabelSize.class)
  void aLabelHasItsSizeAndItsCode(LabelSize size) throws Exception {
    Subject subject = Issues.subject(run("healthy-b"));
    for (Language language : Language.values()) {
      Pdf label = new Pdf(new Papers().label(subject, Issues.issue(PaperSize.A4, language), size));
      assertThat(label.pages()).as(size + " " + language).isEqualTo(1);
      assertThat(label.text())
          .contains("QT-104-0231")
          .contains(language == Language.GERMAN ? "● Bestanden" : "● Passed")
          .contains("2026-06-01")
          .contains("BS-QT-104-0231-20260601T080000Z");
      var image = label.picture(1, 254);
      assertThat(image.getWidth())
          .isBetween((int) (size.width() * 10) - 2, (int) (size.width() * 10) + 8);
      assertThat(image.getHeight())
          .isBetween((int) (size.height() * 10) - 2, (int) (size.height() * 10) + 10);
      assertThat(label.code(1)).startsWith("BS-QT-104-0231-20260601T080000Z\npassed\n");
    }
    new Pdf(new Papers().label(subject, Issues.issue(), size)).isValid();
  }

  @Test
  void theAnnexHoldsWhatThePageHolds() throws Exception {
    Subject subject = Issues.subject(run("slack-after-sensor"));
    Pdf annex = new Pdf(new Papers().annex(subject, Issues.issue())).isValid();
    String text = annex.text();
    ReportPages.sections(subject.run().aids(), Optional.of(subject.run().name()))
        .forEach(section -> assertThat(text).contains(section.title()));
    assertThat(text)
        .contains("Budget of the")
        .contains("Checks before anything was moved")
        .contains("■ Failed")
        .contains("End of BS-")
        .contains("page 2 of " + annex.pages())
        .doesNotContainPattern("(?<![\\w.,-])-\\d\\.\\d");
  }

  /**
   * Names and serials of any script, marks and line ends stay within the page and break nothing.
   */
  @Test
  void whateverWasTypedIsSet() throws Exception {
    Path record =
        RealRecord.of(
            VirtualBench.with("healthy-b"),
            folder.resolve("odd.jsonl"),
            "<b>&\"'漢字\u0001\u202e" + "W".repeat(90));
    Subject subject = Issues.subject(record);
    for (byte[] each :
        List.of(
            new Papers().certificate(subject, Issues.issue()),
            new Papers().sheet(subject, Issues.issue()),
            new Papers().label(subject, Issues.issue(), LabelSize.SMALL))) {
      Pdf pdf = new Pdf(each).isValid();
      assertThat(pdf.text()).contains("<b>&\"'");
    }
  }
}
