package org.benchstroke.papers.sheets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.pdf.Pdf;
import org.benchstroke.papers.pdf.PdfFiles;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a certificate must carry (ISO/IEC 17025:2017 7.8, from memory), as text on its pages. */
class CertificateTest {
  private static final long LATER_NANOS = 2_000_000_000_000L;

  @TempDir static Path folder;
  private static Path record;
  private static Subject sound;
  private static Subject failed;
  private static Subject adjusted;

  /** With an angle reference at the stem, each position has two truths. */
  private static Subject stem;

  @BeforeAll
  static void run() throws Exception {
    record = RealRecord.routine("healthy-b", folder.resolve("sound.jsonl"));
    sound = Issues.subject(record);
    failed = Issues.subject(RealRecord.routine("zero-shift", folder.resolve("failed.jsonl")));
    adjusted =
        Issues.subject(spanOff(1.6, 0, "found.jsonl"), spanOff(0.2, LATER_NANOS, "left.jsonl"));
    stem = Issues.subject(RealRecord.routine("slack-after-sensor", folder.resolve("stem.jsonl")));
  }

  private static Path spanOff(double percent, long nanos, String name) {
    Simulation s = VirtualBench.simulation("healthy-b");
    VirtualBench bench =
        VirtualBench.with(
                s.withUnit(
                    s.parameters().with(s.parameters().transmitter().withErrors(0.0, percent))))
            .tests(RealRecord.tests(RealRecord.ROUTINE));
    bench.clock().waitUntil(nanos);
    return RealRecord.of(bench, folder.resolve(name));
  }

  private static Pdf certificate(Subject subject, Issue issue) {
    return new Pdf(new Papers().certificate(subject, issue));
  }

  @ParameterizedTest
  @EnumSource(PaperSize.class)
  void aRoutineJobHasTwoPages(PaperSize size) {
    for (Language language : Language.values()) {
      Issue issue = Issues.issue(size, language);
      for (Subject each : List.of(sound, failed, adjusted, stem)) {
        Pdf pdf = certificate(each, issue);
        String what = size + " " + language + " " + each.run().name();
        assertThat(pdf.pages()).as(what).isEqualTo(2);
        assertThat(pdf.code(2)).as(what).startsWith("BS-QT-104-0231");
      }
    }
  }

  @Test
  void itCarriesAllThatACertificateMust() throws Exception {
    Subject subject = sound;
    Pdf pdf = certificate(subject, Issues.issue());
    String text = pdf.text();
    String number = "BS-QT-104-0231-20260601T080000Z";
    assertThat(text)
        .contains("Test certificate")
        .contains("Harbour Lane Actuator Service (invented)")
        .contains("1 Harbour Lane")
        .contains("Customer Invented Pumps")
        .contains("Order PO 4711")
        .contains("Tested by J. Invented")
        .contains("Serial number QT-104-0231")
        .contains("Quarter-turn modulating actuator")
        .contains("scratched lid")
        .contains("4–20 mA, direct (more current")
        .contains("goes to the closed end within 1 s; follows 3.9 mA, takes 3.5 mA, 21.5 mA")
        .contains("Tested 2026-06-01 10:00–10:15 (UTC+02:00)")
        .contains("Issued 2026-06-03 12:00 (UTC+02:00)")
        .contains("22.5 °C, 41 % relative humidity")
        .contains("Supply not measured")
        .contains("every 0.1 s (10 per second)")
        .contains("the unit’s own feedback; stem not proven".substring(0, 24))
        .contains("Stem not proven: no independent reference measured it.")
        .contains("agreed beforehand: guard band w = U (ILAC-G8:09/2019 4.2.2, 4.2.3)")
        .contains("travel-error/3")
        .contains("signal-loss/1")
        .contains("exercise (1); stroke time (1); switches (1); travel error (1)")
        .contains("Not tested: position of the stem, supply, resolution, partial stroke, ramp")
        .contains("Example Instruments LS24")
        .contains("SIM-0101")
        .contains("2026-01-15")
        .contains("2099-12-31")
        .contains("Traceability of the results is by the calibration certificates")
        .contains("Span: 0 % is the closed end of the calibrated span")
        .contains("Lid replaced.")
        .contains(
            "recorded by benchstroke, virtual clock; judged and set by benchstroke under test")
        .contains("procedure Routine acceptance, version 1")
        .contains("A. Sample (invented), head of the test shop")
        .contains("Signature")
        .contains("End of " + number)
        .contains("no claim of accreditation")
        .doesNotContain("complies")
        .doesNotContain("SIMULATED")
        .doesNotContain("no certificate");
    for (int page = 1; page <= 2; page++) {
      assertThat(pdf.text(page)).contains(number).contains("page " + page + " of 2");
    }
    assertThat(text)
        .contains(subject.judged().record().digest().orElseThrow().sha256())
        .contains(subject.judged().record().seal().orElseThrow().key().orElseThrow().base64());
  }

  @Test
  void everyLimitedResultStandsThereWithItsUncertaintyAndItsWord() throws Exception {
    Subject subject = failed;
    String text = certificate(subject, Issues.issue()).text();
    JudgedRun run = subject.judged();
    Terms terms = new Terms(Words.of(Language.ENGLISH));
    long limited = 0;
    for (Judgement judgement : run.judgements()) {
      if (judgement.limit().isPresent()) {
        limited++;
        String row =
            terms.value(judgement.measure())
                + " "
                + terms.half(judgement)
                + " "
                + terms.k(judgement.measure())
                + " "
                + terms.marked(judgement.word().orElseThrow());
        assertThat(text).contains(row.replace('\u00a0', ' '));
      }
    }
    assertThat(limited).isGreaterThan(10);
    assertThat(text).contains("Not met: Travel error (25 % up, 50 % up) and 8 more.");
    run.orders().stream()
        .filter(o -> !o.what().startsWith("hunting"))
        .forEach(o -> assertThat(text).contains(terms.what(o).replace('\u00a0', ' ')));
    assertThat(text).contains("Hunting: 10 %, 25 %,").contains("as ordered at each of them");
  }

  @Test
  void asFoundAndAsLeftStandSideBySide() throws Exception {
    Pdf pdf = certificate(adjusted, Issues.issue());
    assertThat(pdf.text())
        .contains("As left, after an adjustment. As found: Failed. Not met: Travel error")
        .contains("Tested, as found 2026-06-01 10:00")
        .contains("Tested, as left 2026-06-01 10:33")
        .contains("Span turned down by 1.4 %")
        .containsPattern("100 % up feedback ±1 % \\+1\\.\\d+ % 0\\.\\d+ % [\\d.]+ ■ Failed \\+0\\.")
        .contains("-with-as-found");
    Map<String, byte[]> files = PdfFiles.of(pdf.bytes());
    assertThat(files.keySet())
        .containsExactlyInAnyOrder(
            "found.jsonl",
            "found.jsonl.seal",
            "left.jsonl",
            "left.jsonl.seal",
            "judgement.json",
            "measures.csv");
  }

  @Test
  void theRecordTheJudgementAndTheMeasuresAreInIt() throws Exception {
    Subject subject = sound;
    Map<String, byte[]> files = PdfFiles.of(certificate(subject, Issues.issue()).bytes());
    assertThat(files.get("sound.jsonl")).isEqualTo(Files.readAllBytes(record));
    assertThat(files.get("sound.jsonl.seal"))
        .isEqualTo(Files.readAllBytes(folder.resolve("sound.jsonl.seal")));
    assertThat(text(files, "judgement.json"))
        .contains("\"report\" : \"BS-QT-104-0231-20260601T080000Z\"")
        .contains("\"verdict\" : \"pass\"");
    assertThat(text(files, "measures.csv").lines().count())
        .isEqualTo(1L + subject.judged().judgements().size());
  }

  private static String text(Map<String, byte[]> files, String name) {
    return new String(files.get(name), StandardCharsets.UTF_8);
  }

  @Test
  void theCodeHoldsNumberVerdictAndDigest() throws Exception {
    Subject subject = sound;
    assertThat(certificate(subject, Issues.issue(PaperSize.A4, Language.GERMAN)).code(2))
        .isEqualTo(
            "BS-QT-104-0231-20260601T080000Z\npassed\n"
                + subject.judged().record().digest().orElseThrow().sha256());
  }

  @Test
  void itIsValidAndTheSameInputGivesTheSameBytes() throws Exception {
    Pdf pdf = certificate(sound, Issues.issue()).isValid();
    assertThat(certificate(sound, Issues.issue()).bytes()).isEqualTo(pdf.bytes());
    certificate(adjusted, Issues.issue(PaperSize.LETTER, Language.GERMAN)).isValid();
  }

  @Test
  void inGermanItSaysTheSame() throws Exception {
    String text = certificate(failed, Issues.issue(PaperSize.A4, Language.GERMAN)).text();
    assertThat(text)
        .contains("Prüfschein")
        .contains("Nicht bestanden")
        .contains("Nicht eingehalten: Stellungsabweichung (25 % auf, 50 % auf)")
        .contains("Spindel nicht bewiesen")
        .contains("Seite 2 von 2")
        .contains("Ende von BS-QT-104-0231")
        .contains("+1.50 %")
        .doesNotContain("Failed");
  }
}
