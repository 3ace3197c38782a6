package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.papers.pdf.Pdf;
import org.benchstroke.papers.pdf.PdfFiles;
import org.benchstroke.papers.sheets.RealRecord;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code report --paper} and {@code verify} of a certificate, as a person at a shell sees them. */
class PaperCommandTest {
  private static final String AT = "2026-06-03T12:00+02:00";

  @TempDir static Path records;
  private static Path record;

  @TempDir Path folder;

  @BeforeAll
  static void run() {
    record = RealRecord.of(VirtualBench.with("healthy-b"), records.resolve("run.jsonl"));
  }

  private static Command report(Path file, String paper, Path out, Object... more) {
    Object[] all = new Object[7 + more.length];
    System.arraycopy(
        new Object[] {"report", file, "--paper", paper, "--out", out, "--issued=" + AT},
        0,
        all,
        0,
        7);
    System.arraycopy(more, 0, all, 7, more.length);
    return Command.run(all);
  }

  private static Pdf pdf(Path file) throws Exception {
    return new Pdf(Files.readAllBytes(file));
  }

  private Path certificate(String name) {
    Path file = folder.resolve(name);
    Command issued =
        report(record, "certificate", file, "--authorised-by", "A. Sample", "--role", "head");
    assertThat(issued.code()).as(issued.err()).isZero();
    assertThat(issued.out()).contains("Paper:   " + file);
    assertThat(issued.err()).isEmpty();
    return file;
  }

  @Test
  void aCertificateIsIssuedAndTheSameTimeGivesTheSameFile() throws Exception {
    Path first = certificate("a.pdf");
    assertThat(pdf(first).text()).contains("Test certificate").contains("Passed");
    assertThat(Files.readAllBytes(certificate("b.pdf"))).isEqualTo(Files.readAllBytes(first));
  }

  /**
   * ISO/IEC 17025:2017 7.8.8 (from memory): a report that is issued again is identified as new, and
   * refers to the one that it replaces.
   */
  @Test
  void whatIsIssuedAgainHasItsOwnNumberAndSaysWhatItSupersedes() throws Exception {
    Path own = RealRecord.of(VirtualBench.with("healthy-b"), folder.resolve("run.jsonl"));
    String number = "BS-QT-104-0231-20260601T080000Z";
    List<String> signed = List.of("--authorised-by", "A. Sample", "--role", "head");
    Path first = issued(own, 0, signed, "--issued", AT);
    assertThat(pdf(first).text()).contains(number).doesNotContain("Supersedes");
    byte[] bytes = Files.readAllBytes(first);

    Path german = issued(own, 0, signed, "--issued", AT, "--language", "de", "--out", "de.pdf");
    assertThat(pdf(german).text()).contains(number).doesNotContain(number + "-I");
    assertThat(refused(own, signed, "--issued", AT, "--remarks", "other"))
        .startsWith("A certificate of this record was issued as " + number + " on 2026-06-03T10:00")
        .contains("--issued 2026-06-03T10:00:00Z", "--supersedes");
    assertThat(refused(own, List.of(), "--supersedes", "x")).contains("needs --authorised-by");

    Path second =
        issued(own, 0, signed, "--issued", "2026-06-04T12:00+02:00", "--supersedes", "Wrong lid");
    assertThat(second.getFileName()).hasToString("run-certificate-issue-2.pdf");
    Pdf again = pdf(second).isValid();
    assertThat(again.pages()).isEqualTo(pdf(first).pages());
    assertThat(again.text())
        .contains("Supersedes " + number + ", issued 2026-06-03 ", "Wrong lid")
        .contains("End of " + number + "-I2");
    assertThat(again.code(again.pages())).startsWith(number + "-I2\n");
    assertThat(Files.readAllBytes(first)).isEqualTo(bytes);
    Path third =
        issued(own, 0, signed, "--issued", "2026-06-05T12:00+02:00", "--supersedes", "Once more");
    assertThat(pdf(third).text()).contains("Supersedes " + number + "-I2", number + "-I3");
    assertThat(Command.run("report", own, "--paper", "label").code()).isZero();
    assertThat(pdf(folder.resolve("run-label.pdf")).text()).contains(number + "-I3");
    assertThat(Command.run("verify", third).out()).contains("number " + number);

    Files.writeString(folder.resolve("run.jsonl.issue-3"), "spoilt");
    assertThat(refused(own, signed, "--supersedes", "x")).contains("run.jsonl.issue-3: is no note");
  }

  private Path issued(Path record, int code, List<String> signed, Object... more) {
    Command issued = certificate(record, signed, more);
    assertThat(issued.code()).as(issued.err()).isEqualTo(code);
    String said =
        issued.out().lines().filter(l -> l.startsWith("Paper:")).findFirst().orElseThrow();
    return Path.of(said.substring("Paper:   ".length()));
  }

  private String refused(Path record, List<String> signed, Object... more) {
    Command refused = certificate(record, signed, more);
    assertThat(refused.code()).as(refused.out()).isEqualTo(2);
    return refused.err();
  }

  private Command certificate(Path record, List<String> signed, Object... more) {
    List<Object> all = new ArrayList<>(List.of("report", record, "--paper", "certificate"));
    all.addAll(signed);
    for (Object each : more) {
      all.add(each.equals("de.pdf") ? folder.resolve("de.pdf") : each);
    }
    return Command.run(all.toArray());
  }

  /** Whoever asks at the same time gets another number, or none. */
  @Test
  void noNumberIsGivenTwice() throws Exception {
    Path own = RealRecord.of(VirtualBench.with("healthy-b"), folder.resolve("run.jsonl"));
    List<String> signed = List.of("--authorised-by", "A. Sample", "--role", "head");
    issued(own, 0, signed, "--issued", AT);
    List<String> numbers = new ArrayList<>();
    try (Stream<Integer> all = IntStream.range(0, 4).boxed().parallel()) {
      List<Command> commands =
          all.map(
                  i ->
                      certificate(
                          own,
                          signed,
                          "--supersedes",
                          "reason " + i,
                          "--out",
                          folder.resolve(i + ".pdf")))
              .toList();
      for (int i = 0; i < commands.size(); i++) {
        if (commands.get(i).code() == 0) {
          Pdf issued = pdf(folder.resolve(i + ".pdf"));
          numbers.add(issued.code(issued.pages()).lines().findFirst().orElseThrow());
        }
      }
    }
    assertThat(numbers).isNotEmpty().doesNotHaveDuplicates();
  }

  @Test
  void whatIsNoCertificateSaysWhyOnTheTerminalToo() throws Exception {
    Path file = folder.resolve("c.pdf");
    Command issued = report(record, "certificate", file);
    assertThat(issued.code()).isZero();
    assertThat(issued.err())
        .isEqualTo("A test report, no certificate: Nobody has authorised it.\n");
    assertThat(pdf(file).text()).contains("Test report");
  }

  @ParameterizedTest
  @CsvSource({"annex, Unit and test", "sheet, Workshop sheet", "label, QT-104-0231"})
  void theOtherPapersAreValid(String paper, String contains) throws Exception {
    Path file = folder.resolve(paper + ".pdf");
    assertThat(report(record, paper, file).code()).isZero();
    Pdf pdf = pdf(file).isValid();
    assertThat(pdf.text()).contains(contains).contains("BS-QT-104-0231-20260601T080000Z");
    assertThat(pdf.pages()).isEqualTo(paper.equals("annex") ? pdf.pages() : 1);
  }

  @Test
  void withoutAPlaceItStandsBesideTheRecord() throws Exception {
    Path copy = Files.copy(record, folder.resolve("r.jsonl"));
    assertThat(Command.run("report", copy, "--paper", "sheet").code()).isZero();
    assertThat(folder.resolve("r-sheet.pdf")).exists();
    // an earlier one of this program is replaced, another's is not
    assertThat(Command.run("report", copy, "--paper", "sheet").code()).isZero();
    Files.writeString(folder.resolve("r-label.pdf"), "%PDF-1.7 of somebody else");
    Command other = Command.run("report", copy, "--paper", "label");
    assertThat(other.code()).isEqualTo(2);
    assertThat(other.err()).contains("is not an earlier paper of this program");
  }

  @Test
  void aLogoStandsOnTheCertificate() throws Exception {
    Path svg =
        Files.writeString(
            folder.resolve("logo.svg"),
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40\" height=\"20\"><rect"
                + " width=\"40\" height=\"20\" fill=\"#1d4f91\"/></svg>");
    Path file = folder.resolve("logo.pdf");
    assertThat(report(record, "certificate", file, "--logo", svg).code()).isZero();
    var image = pdf(file).isValid().picture(1, 60);
    long blue = 0;
    for (int y = 0; y < 120; y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        blue += (image.getRGB(x, y) & 0xffffff) == 0x1d4f91 ? 1 : 0;
      }
    }
    assertThat(blue).isGreaterThan(100);
  }

  @Test
  void wrongRequestsAreToldInOneLine() throws Exception {
    Path evil =
        Files.writeString(
            folder.resolve("evil.svg"), "<svg><image href=\"https://example.invalid/a\"/></svg>");
    Path file = folder.resolve("x.pdf");
    for (Map.Entry<List<Object>, String> each :
        Map.<List<Object>, String>of(
                List.of("--paper", "poster"),
                "--paper: found \"poster\", allowed are page, certificate, annex, sheet, label",
                List.of("--language", "de"),
                "--language: has no place on the HTML page",
                List.of("--paper", "sheet", "--label-size", "62x29"),
                "--label-size: needs --paper label",
                List.of("--paper", "label", "--label-size", "9x9"),
                "--label-size: found \"9x9\", allowed are 62x29, 100x50, 4x2in",
                List.of("--paper", "sheet", "--language", "xx"),
                "--language: found \"xx\", allowed are en, de",
                List.of("--paper", "sheet", "--paper-size", "a5"),
                "--paper-size: found \"a5\", allowed are a4, letter",
                List.of("--paper", "sheet", "--issued", "yesterday"),
                "--issued: found \"yesterday\", allowed is a time",
                List.of("--paper", "certificate", "--logo", evil),
                "evil.svg: is an SVG picture that runs or fetches something",
                List.of("--paper", "certificate", "--logo", folder.resolve("none.svg")),
                "none.svg: ")
            .entrySet()) {
      List<Object> all = new ArrayList<>(List.of("report", record, "--out", file));
      all.addAll(each.getKey());
      Command wrong = Command.run(all.toArray());
      assertThat(wrong.code()).as(each.getValue()).isEqualTo(2);
      assertThat(wrong.err()).contains(each.getValue());
    }
    assertThat(file).doesNotExist();
  }

  @Test
  void aCertificateAloneIsVerified() throws Exception {
    Path file = certificate("alone.pdf");
    Command whole = Command.run("verify", file);
    assertThat(whole.code()).as(whole.err()).isZero();
    assertThat(whole.out())
        .contains("alone.pdf, run.jsonl: sealed and whole")
        .contains("the record gives: passed, number BS-QT-104-0231-20260601T080000Z");
    Path none = folder.resolve("sheet.pdf");
    report(record, "sheet", none);
    Command sheet = Command.run("verify", none);
    assertThat(sheet.code()).isEqualTo(2);
    assertThat(sheet.err()).contains("is a PDF file with no record in it");
    Path rubbish = Files.writeString(folder.resolve("rubbish.pdf"), "%PDF-1.7\nno more");
    assertThat(Command.run("verify", rubbish).code()).isEqualTo(2);
  }

  /** Whoever changes the record within a certificate is found, the rest of the file being right. */
  @Test
  void aChangedRecordWithinACertificateIsFound() throws Exception {
    Path changed = Files.copy(record, folder.resolve("run.jsonl"));
    Files.copy(records.resolve("run.jsonl.seal"), folder.resolve("run.jsonl.seal"));
    Files.writeString(
        changed,
        Files.readString(changed).replaceFirst("\"humidity_pct\":41", "\"humidity_pct\":4"));
    Path file = folder.resolve("changed.pdf");
    report(changed, "certificate", file, "--authorised-by", "A. Sample", "--role", "head");
    Command verify = Command.run("verify", file);
    assertThat(verify.code()).isEqualTo(1);
    assertThat(verify.out()).contains("run.jsonl: CHANGED: line 2").contains("gives: no result");
  }

  @Test
  void twoRecordsOfOneNameStayApart() throws Exception {
    Path later = Files.createDirectory(folder.resolve("later")).resolve("run.jsonl");
    VirtualBench again = VirtualBench.with("healthy-b");
    again.clock().waitUntil(900_000_000_000L);
    RealRecord.of(again, later);
    Path file = folder.resolve("both.pdf");
    Command both =
        report(
            later,
            "certificate",
            file,
            "--as-found",
            record,
            "--authorised-by",
            "A. Sample",
            "--role",
            "head");
    assertThat(both.code()).as(both.err()).isZero();
    assertThat(PdfFiles.of(Files.readAllBytes(file)).keySet())
        .contains("run.jsonl", "run.jsonl.seal", "as-found-run.jsonl", "as-found-run.jsonl.seal");
    Command verify = Command.run("verify", file);
    assertThat(verify.code()).as(verify.out()).isZero();
    assertThat(verify.out()).contains("both.pdf, as-found-run.jsonl: sealed and whole");
  }

  /** A file that others recorded never shows the large word of a run. */
  @Test
  void whatOthersRecordedIsNotProven() throws Exception {
    Path made = folder.resolve("made.jsonl");
    Command judged =
        Command.run(
            "judge",
            "demo-data/recorded/readings.csv",
            "--bench",
            "demo-data/benches/by-hand.toml",
            "--unit-type",
            "demo-data/unit-types/quarter-turn-15s.toml",
            "--date",
            "2026-06-01",
            "--record",
            made);
    assertThat(made).as(judged.err()).exists();
    Path file = folder.resolve("certificate.pdf");
    Command issued =
        report(made, "certificate", file, "--authorised-by", "A. Sample", "--role", "head");
    assertThat(issued.err()).contains("no certificate: Others recorded the file");
    for (String paper : List.of("certificate", "sheet")) {
      Path each = folder.resolve(paper + "-2.pdf");
      report(made, paper, each);
      assertThat(pdf(each).text(1))
          .contains("Not proven")
          .contains("Recorded by others: its setpoints, its losses of signal and which")
          .contains("By the readings as they stand in the file:");
    }
    Path label = folder.resolve("label.pdf");
    report(made, "label", label);
    assertThat(pdf(label).text())
        .contains("Not proven")
        .contains("Recorded elsewhere")
        .doesNotContain("Passed");
    assertThat(pdf(label).code(1)).contains("\nnot proven\n");
  }
}
