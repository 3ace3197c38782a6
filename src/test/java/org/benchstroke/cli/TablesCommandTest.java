package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.papers.sheets.RealRecord;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tables, certificates for programs and schemas, as a person at a shell gets them. */
class TablesCommandTest {
  private static final String[] BY = {
    "--authorised-by", "A. Sample (invented)", "--role", "head of the test shop"
  };

  @TempDir static Path records;
  private static Path found;
  private static Path left;

  @TempDir Path folder;

  @BeforeAll
  static void run() {
    found = RealRecord.of(VirtualBench.with("zero-shift"), records.resolve("found.jsonl"));
    VirtualBench later = VirtualBench.with("healthy-b");
    later.clock().waitUntil(900_000_000_000L);
    left = RealRecord.of(later, records.resolve("left.jsonl"));
  }

  private static List<CSVRecord> rows(Path file) throws IOException {
    String text = Files.readString(file);
    assertThat(text).startsWith("\ufeff");
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    return format.parse(new StringReader(text.substring(1))).getRecords();
  }

  @Test
  void manyRecordsMakeTwoTables() throws IOException {
    Path units = folder.resolve("units.csv");
    Path measures = folder.resolve("measures.csv");
    Command both =
        Command.run("report", found, left, "--csv-summary", units, "--csv-measures", measures);
    assertThat(both.err()).isEmpty();
    assertThat(both.code()).as("that of the worst").isEqualTo(1);
    assertThat(both.out()).contains("Summary: " + units).contains("Measures: " + measures);
    List<CSVRecord> rows = rows(units);
    assertThat(rows).extracting(r -> r.get("verdict")).containsExactly("failed", "passed");
    assertThat(rows.get(0).get("likely_cause")).startsWith("zero shift or ");
    assertThat(rows.get(0).get("record")).isEqualTo("found.jsonl");
    assertThat(rows.get(1).get("sha256")).matches("[0-9a-f]{64}");
    assertThat(rows(measures)).extracting(r -> r.get("report")).contains(rows.get(0).get("report"));
    assertThat(records.resolve("left.html")).doesNotExist();
    // the same again replaces them: they are earlier ones of their kind
    assertThat(Command.run("report", left, found, "--csv-summary", units).code()).isEqualTo(1);
    assertThat(rows(units)).extracting(r -> r.get("verdict")).containsExactly("passed", "failed");
  }

  @Test
  void manyRecordsMakeNothingElse() {
    for (Object[] wrong :
        new Object[][] {
          {"report", found, left},
          {"report", found, left, "--csv-summary", folder.resolve("u"), "--json", "j"},
          {"report", found, found, "--csv-summary", folder.resolve("u")},
          {"report", found, left, "--csv-summary", left}
        }) {
      Command refused = Command.run(wrong);
      assertThat(refused.code()).isEqualTo(2);
      assertThat(refused.err().lines()).hasSize(1);
    }
    assertThat(folder.resolve("u")).doesNotExist();
  }

  @Test
  void asFoundAndAsLeftHaveARowEach() throws IOException {
    Path units = folder.resolve("units.csv");
    Command both =
        Command.run(
            "report",
            left,
            "--as-found",
            found,
            "--csv-summary",
            units,
            "--out",
            folder.resolve("both.html"));
    assertThat(both.code()).isZero();
    assertThat(rows(units)).extracting(r -> r.get("run")).containsExactly("as found", "as left");
  }

  @Test
  void aCertificateForPrograms() throws IOException {
    Path xml = folder.resolve("c.xml");
    Object[] command = {
      "report",
      left,
      "--out",
      folder.resolve("r.html"),
      "--dcc",
      xml,
      "--country",
      "DE",
      BY[0],
      BY[1],
      BY[2],
      BY[3]
    };
    Command written = Command.run(command);
    assertThat(written.err()).isEmpty();
    assertThat(written.out()).contains("XML:     " + xml);
    assertThat(Files.readString(xml))
        .contains("schemaVersion=\"3.2.1\"")
        .contains("<dcc:uniqueIdentifier>BS-QT-104-0231-");
    Command again = Command.run(command);
    assertThat(again.code()).as("another certificate of the same run").isEqualTo(2);
    assertThat(again.err()).contains("--supersedes");
    List<Object> corrected = new ArrayList<>(List.of(command));
    corrected.addAll(List.of("--supersedes", "Wrong country stated"));
    assertThat(Command.run(corrected.toArray()).err()).isEmpty();
    assertThat(Files.readString(xml))
        .contains("-I2</dcc:uniqueIdentifier>", "<dcc:typeOfChange>substituted</dcc:typeOfChange>")
        .contains("<dcc:replacedUniqueIdentifier>BS-QT-104-0231-");
  }

  @Test
  void whatIsNoCertificateIsRefusedAndNothingIsWritten() {
    Path xml = folder.resolve("c.xml");
    Path page = folder.resolve("r.html");
    Path simulated = VirtualBench.with("healthy-b").runInto(folder.resolve("sim.jsonl"));
    Command refused =
        Command.run("report", simulated, "--out", page, "--dcc", xml, "--country", "DE");
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.err().lines()).hasSize(1);
    assertThat(refused.err())
        .contains("can't be a calibration certificate, and no file was written")
        .contains("The unit was simulated.")
        .contains("Nobody has authorised it.");
    assertThat(xml).doesNotExist();
    assertThat(page).doesNotExist();
    for (String country : List.of("Germany", "de", "D")) {
      Command wrong = Command.run("report", left, "--dcc", xml, "--country", country);
      assertThat(wrong.code()).isEqualTo(2);
      assertThat(wrong.err()).contains("two capital letters of ISO 3166-1");
    }
    assertThat(Command.run("report", left, "--dcc", xml).err()).contains("--country");
  }

  @Test
  void schemasAreListedPrintedAndWritten() throws IOException {
    Command list = Command.run("schema");
    assertThat(list.code()).isZero();
    assertThat(list.out().lines().map(l -> l.replaceFirst(" .*", "")))
        .containsExactly(
            "bench",
            "instrument",
            "unit-type",
            "procedure",
            "simulation",
            "shop",
            "user",
            "config",
            "operators",
            "record-line",
            "judgement",
            "run-line",
            "scan",
            "verified",
            "amended",
            "key",
            "archive-work");
    Command bench = Command.run("schema", "bench");
    assertThat(new ObjectMapper().readTree(bench.out()).path("$id").asText())
        .isEqualTo("urn:benchstroke:schema:bench:1");
    Path file = folder.resolve("bench.schema.json");
    assertThat(Command.run("schema", "bench", "--out", file).code()).isZero();
    assertThat(Files.readString(file)).isEqualTo(bench.out());
    assertThat(Command.run("schema", "judgement", "--out", file).code()).isZero();
    assertThat(Command.run("schema", "--out", file).code()).isEqualTo(2);
    Command wrong = Command.run("schema", "bnech");
    assertThat(wrong.code()).isEqualTo(2);
    assertThat(wrong.err()).contains("\"bnech\", allowed are bench, instrument, unit-type");
  }
}
