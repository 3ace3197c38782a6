package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.function.UnaryOperator;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A unit that is 1.6 % off at 100 %, is adjusted to 0.2 % and tested again: both stand in one
 * report, and neither record can be edited.
 */
class AsFoundAsLeftTest {
  private static final long LATER_NANOS = 900_000_000_000L;

  @TempDir static Path records;
  private static Path found;
  private static Path left;

  @TempDir Path folder;

  @BeforeAll
  static void run() {
    found = run(1.6, "found.jsonl", 0, text -> text);
    left = run(0.2, "left.jsonl", LATER_NANOS, text -> text);
  }

  private static Path run(
      double spanPercent, String name, long nanos, UnaryOperator<String> unitType) {
    VirtualBench bench = VirtualBench.with(spanOff(spanPercent)).unitType(unitType);
    bench.clock().waitUntil(nanos);
    return bench.runInto(records.resolve(name));
  }

  private static Simulation spanOff(double percent) {
    Simulation s = VirtualBench.simulation("healthy-b");
    return s.withUnit(s.parameters().with(s.parameters().transmitter().withErrors(0.0, percent)));
  }

  @Test
  void bothStandInOneReportAndNeitherRecordIsTouched() throws Exception {
    byte[] foundBytes = Files.readAllBytes(found);
    byte[] leftBytes = Files.readAllBytes(left);
    Path page = folder.resolve("both.html");
    Path json = folder.resolve("both.json");
    Command report =
        Command.run(
            "report",
            left,
            "--as-found",
            found,
            "--adjusted",
            "Span of the transmitter turned down by 1.4 %",
            "--out",
            page,
            "--json",
            json);
    assertThat(report.code()).as(report.err()).isZero();
    assertThat(report.out())
        .contains("As found: failed\nAs left: passed\nFirst-pass yield: 0 of 1\n")
        .contains("Report:  " + page)
        .contains("JSON:    " + json);
    String text = words(page);
    assertThat(text)
        .contains("Verdict fail pass")
        .contains("First-pass yield 0 of 1")
        .contains("Span of the transmitter turned down by 1.4 %")
        .contains("Other records of this unit not looked at")
        .contains("Record found.jsonl left.jsonl")
        .contains("as found " + sha256(foundBytes))
        .contains("as left " + sha256(leftBytes))
        .contains("As left: Measures")
        .contains("As found: Measures")
        .contains("SIMULATED")
        .containsPattern(
            "travel error at 100 % up fail \\+1\\.\\d+ % 0\\.\\d+ % pass [+−]0\\.\\d+ %");
    JsonNode told = new ObjectMapper().readTree(Files.readString(json));
    assertThat(told.get("first_passes").asInt()).isZero();
    assertThat(told.get("units").asInt()).isEqualTo(1);
    assertThat(told.get("same_unit_type_file").asBoolean()).isTrue();
    assertThat(error100(told.get("as_found"))).isBetween(1.3, 1.9);
    assertThat(error100(told.get("as_left"))).isBetween(-0.1, 0.5);
    assertThat(told.get("as_found").get("verdict").asText()).isEqualTo("fail");
    assertThat(told.get("as_left").get("verdict").asText()).isEqualTo("pass");
    assertThat(Files.readAllBytes(found)).isEqualTo(foundBytes);
    assertThat(Files.readAllBytes(left)).isEqualTo(leftBytes);
  }

  private static double error100(JsonNode run) {
    for (JsonNode measure : run.get("measures")) {
      if (measure.get("kind").asText().equals("travel_error_pct")
          && measure.get("place").asText().equals("100 % up")) {
        return measure.get("value").asDouble();
      }
    }
    throw new AssertionError("no travel error at 100 %");
  }

  private static String words(Path page) throws IOException {
    return Files.readString(page)
        .replaceAll("(?s)<(style|svg|title).*?</\\1>", " ")
        .replaceAll("(?s)<[^>]*>", " ")
        .replaceAll("\\s+", " ");
  }

  private static String sha256(byte[] bytes) throws Exception {
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
  }

  @Test
  void anEditedRecordIsToldAndRefused() throws IOException {
    String text = Files.readString(found, StandardCharsets.UTF_8);
    int at = text.indexOf("\"setpoint_percent\":100.0");
    assertThat(at).isPositive();
    String nicer = text.substring(0, at) + "\"setpoint_percent\":101.6" + text.substring(at + 23);
    Path edited = Files.writeString(folder.resolve("edited.jsonl"), nicer);
    for (List<Path> pair : List.of(List.of(left, edited), List.of(edited, found))) {
      refused(pair.get(0), pair.get(1), "the record is not as it was written");
    }
    assertThat(Command.run("judge", edited).code()).isEqualTo(3);
  }

  @Test
  void aTornOrUnclosedRecordIsRefused() throws IOException {
    String text = Files.readString(left);
    int lastLine = text.lastIndexOf('\n', text.length() - 2) + 1;
    Path open = Files.writeString(folder.resolve("open.jsonl"), text.substring(0, lastLine));
    refused(open, found, "has no closing line");
    Path torn = Files.writeString(folder.resolve("torn.jsonl"), text.substring(0, lastLine + 9));
    refused(torn, found, "the record is not as it was written");
  }

  @Test
  void theOrderOfTimeAndTheUnitMustFit() throws IOException {
    refused(found, left, "name them the other way round?");
    refused(left, left, "not before as left began");
    Path other =
        run(
            0.2,
            "other-type.jsonl",
            LATER_NANOS,
            text -> text.replaceFirst("name = \"[^\"]*\"", "name = \"Another type\""));
    refused(other, found, "not of one unit type");
  }

  @Test
  void anotherLimitInBetweenIsSaid() throws IOException {
    Path wider =
        run(
            0.2,
            "wider.jsonl",
            LATER_NANOS,
            text -> text.replace("travel_error_pct = 1.0", "travel_error_pct = 2.0"));
    Path page = folder.resolve("wider.html");
    Command report = Command.run("report", wider, "--as-found", found, "--out", page);
    assertThat(report.code()).isZero();
    assertThat(words(page)).contains("UNIT TYPE FILE CHANGED").contains("±1 %, then ±2 %");
  }

  @Test
  void itsUsualNameIsNotThatOfTheReportOfOneRecord() throws IOException {
    Path copy = Files.copy(left, folder.resolve("copy.jsonl"));
    assertThat(Command.run("report", copy, "--as-found", found).code()).isZero();
    assertThat(folder.resolve("copy-with-as-found.html")).exists();
    assertThat(folder.resolve("copy.html")).doesNotExist();
    Command over = Command.run("report", copy, "--as-found", found, "--out", found);
    assertThat(over.code()).isEqualTo(2);
    assertThat(over.err()).contains("is the record itself");
    Command what = Command.run("report", copy, "--adjusted", "zero");
    assertThat(what.code()).isEqualTo(2);
    assertThat(what.err()).contains("--as-found");
  }

  private void refused(Path asLeft, Path asFound, String why) {
    Path page = folder.resolve("refused.html");
    Command report = Command.run("report", asLeft, "--as-found", asFound, "--out", page);
    assertThat(report.code()).isEqualTo(2);
    assertThat(report.err().lines()).hasSize(1);
    assertThat(report.err()).contains(why);
    assertThat(page).doesNotExist();
  }
}
