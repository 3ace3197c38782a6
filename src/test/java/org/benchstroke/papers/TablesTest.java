package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables for spreadsheets and programs, read back by a parser that keeps to RFC 4180. */
class TablesTest {
  private static final double UNLIKE_ANY = 0.1 + 0.2;

  private static List<CSVRecord> read(String text) {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser parser = CSVParser.parse(new StringReader(text.substring(1)), format)) {
      return parser.getRecords();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String units(JudgedRun... runs) {
    return UnitsCsv.text(
        Stream.of(runs)
            .map(run -> new UnitsCsv.Run("", new TwinAndCauses(run), "r.jsonl"))
            .toList());
  }

  private static String measures(JudgedRun... runs) {
    return MeasuresCsv.text(
        Stream.of(runs).map(run -> new MeasuresCsv.Run("as left", run)).toList());
  }

  @Test
  void everyUnitHasItsRow() {
    String text =
        units(SampleRuns.cleanPass(), SampleRuns.spanFailWithStem(), SampleRuns.interrupted());
    assertThat(text).startsWith("\ufeffreport,began,serial,").endsWith("\r\n");
    assertThat(text.replace("\r\n", "")).doesNotContain("\r").doesNotContain("\n");
    List<CSVRecord> rows = read(text);
    assertThat(rows).hasSize(3);
    CSVRecord clean = rows.get(0);
    assertThat(clean.get("serial")).isEqualTo("QT-104-0231");
    assertThat(clean.get("verdict")).isEqualTo("passed");
    assertThat(clean.get("passed")).isEqualTo("true");
    assertThat(clean.get("simulated")).isEqualTo("true");
    assertThat(clean.get("first_failing")).isEmpty();
    assertThat(clean.get("began")).matches("2026-03-04T\\d{2}:12:30([+-]\\d{2}:\\d{2}|Z)");
    // the largest error is 0.11 % of a limit of ±1 %, and 15.02 s lies 1.48 s inside 13.5 to 16.5 s
    assertThat(Double.parseDouble(clean.get("worst_margin_pct"))).isBetween(88.0, 90.0);
    CSVRecord span = rows.get(1);
    assertThat(span.get("verdict")).isEqualTo("failed");
    assertThat(span.get("first_failing")).startsWith("travel error at ");
    assertThat(Double.parseDouble(span.get("worst_margin_pct"))).isCloseTo(-114.0, within(1e-9));
    assertThat(span.get("worst_margin_of")).isEqualTo("travel error of the stem at 100 % down");
    CSVRecord half = rows.get(2);
    assertThat(half.get("verdict")).isEqualTo("no result");
    assertThat(half.get("passed")).isEqualTo("false");
    assertThat(half.get("complete")).isEqualTo("false");
  }

  @Test
  void everyMeasureHasItsRowWithAllItsDigits() {
    JudgedRun run = SampleRuns.spanFailWithStem();
    List<CSVRecord> rows = read(measures(run));
    assertThat(rows).hasSameSizeAs(run.judgements());
    for (int i = 0; i < rows.size(); i++) {
      CSVRecord row = rows.get(i);
      Judgement judged = run.judgements().get(i);
      assertThat(row.get("report")).isEqualTo(ReportPages.number(run));
      assertThat(row.get("run")).isEqualTo("as left");
      assertThat(row.get("kind")).isEqualTo(judged.measure().kind().key());
      assertThat(row.get("place")).isEqualTo(judged.measure().place().words());
      assertThat(row.get("unit")).isEqualTo(judged.measure().kind().unit());
      assertThat(Double.parseDouble(row.get("value")))
          .isEqualTo(judged.measure().value().orElseThrow());
      assertThat(Double.parseDouble(row.get("u")))
          .isEqualTo(judged.measure().budget().orElseThrow().expand(0.95).half());
      assertThat(row.get("coverage")).isEqualTo("0.95");
      assertThat(row.get("word")).isEqualTo(judged.word().orElseThrow().text());
    }
    assertThat(rows.get(0).get("limit_low")).isEqualTo("-1");
  }

  @Test
  void whatDoesNotExistIsAnEmptyCell() {
    List<CSVRecord> rows = read(measures(SampleRuns.interrupted()));
    CSVRecord missing = rows.get(4);
    assertThat(missing.get("word")).isEqualTo("no result");
    for (String column : List.of("value", "u", "k", "coverage", "probability")) {
      assertThat(missing.get(column)).as(column).isEmpty();
    }
  }

  /**
   * OWASP, "CSV Injection" (from memory): the characters by which a spreadsheet knows a formula.
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "=1+1",
        "=cmd|' /C calc'!A0",
        "+1",
        "-1+1",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        "'=1",
        "'",
        "＝1",
        "a,b",
        "a\"b",
        "a\r\nb",
        "Ü 漢 🙂",
        "plain",
        "0042",
        "1=1"
      })
  void aTextIsATextWhateverItLooksLike(String serial) {
    String text = units(SampleRuns.withSerial(serial));
    String cell = read(text).get(0).get("serial");
    assertThat("=+-@\t\r\n＝").doesNotContain(cell.substring(0, 1));
    assertThat(cell.startsWith("'") ? cell.substring(1) : cell).isEqualTo(serial);
    assertThat(read(measures(SampleRuns.withSerial(serial))).get(0).get("serial")).isEqualTo(cell);
  }

  /** A number is no text: its sign stays, and its point is one everywhere. */
  @Test
  void numbersAreNumbersInEveryPlace() {
    List<Object> cells = new ArrayList<>(List.of("x", -UNLIKE_ANY, -0.0, 1e-7, 1e21, true));
    cells.add(Double.NaN);
    assertThat(new Csv(List.of("a")).row(cells).text())
        .isEqualTo("a\r\nx,-0.30000000000000004,0,0.0000001,1000000000000000000000,true,\r\n");
    String here = units(SampleRuns.cleanPass()) + measures(SampleRuns.cleanPass());
    assertThat(
            Elsewhere.call(() -> units(SampleRuns.cleanPass()) + measures(SampleRuns.cleanPass())))
        .isEqualTo(here);
  }

  @Test
  void samplesHaveTheSameBytesAsBefore() {
    String text = SamplesCsv.text(SampleRuns.cleanPass().record());
    assertThat(text).startsWith("time [s],setpoint [mA],position [%]\r\n");
    assertThat(text.lines().skip(1)).allMatch(l -> l.matches("\\d+\\.\\d{9},[\\d.]*,-?[\\d.]*"));
  }
}
