package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Customer, air and who answers, as a person at a shell states them. */
class JobOptionsTest {
  @TempDir Path folder;

  private Command judge(Object... more) {
    List<Object> all = new ArrayList<>();
    all.addAll(List.of("judge", "demo-data/recorded/readings.csv"));
    all.addAll(List.of("--bench", "demo-data/benches/by-hand.toml"));
    all.addAll(List.of("--unit-type", "demo-data/unit-types/quarter-turn-15s.toml"));
    all.addAll(List.of(more));
    return Command.run(all.toArray());
  }

  @Test
  void whatWasStatedIsInTheRecordAndItsReport() throws IOException {
    Path record = folder.resolve("r.jsonl");
    judge("--customer", " Invented Pumps ", "--ambient-c", "22.5", "--record", record);
    assertThat(Files.readAllLines(record).get(2))
        .contains("\"kind\":\"job\"")
        .contains(
            "{\"customer\":\"Invented Pumps\",\"air\":{\"temperature_c\":22.5},\"facts\":{}}");
    Path page = folder.resolve("page.html");
    Command.run(
        "report", record, "--out", page, "--authorised-by", "B. Example", "--role", "foreman");
    assertThat(Files.readString(page).replaceAll("<[^>]*>", " ").replaceAll("\\s+", " "))
        .contains("Customer Invented Pumps")
        .contains("Ambient conditions 22.5 °C")
        .contains("Report authorised by B. Example, foreman");
    Command alone = Command.run("report", record, "--out", page, "--role", "foreman");
    assertThat(alone.code()).isEqualTo(2);
    assertThat(alone.err()).contains("--authorised-by and --role belong together");
  }

  @Test
  void whatTheUnitIsStandsInTheRecordAndIsAmendedLikeEveryLabel() throws Exception {
    Path record = folder.resolve("r.jsonl");
    judge(
        "--tag",
        " FV-101 ",
        "--valve-maker",
        "Invented Valves",
        "--valve-serial",
        "V-7",
        "--actuator-model",
        "IA-15",
        "--received",
        "2026-05-30",
        "--record",
        record);
    assertThat(Files.readAllLines(record).get(2))
        .contains(
            "\"facts\":{\"tag\":\"FV-101\",\"actuator_model\":\"IA-15\","
                + "\"valve_maker\":\"Invented Valves\",\"valve_serial\":\"V-7\","
                + "\"received\":\"2026-05-30\"}");
    RunRecord read = RecordReader.read(record);
    assertThat(read.flaws()).isEmpty();
    assertThat(read.label(Label.TAG)).isEqualTo("FV-101");
    assertThat(read.label(Label.ACTUATOR_MAKER)).isEmpty();
    Path page = folder.resolve("page.html");
    Command.run("report", record, "--out", page);
    assertThat(Files.readString(page).replaceAll("<[^>]*>", " ").replaceAll("\\s+", " "))
        .contains("Tag FV-101 Actuator model IA-15 Valve maker Invented Valves")
        .contains("Valve serial number V-7 Date received 2026-05-30")
        .doesNotContain("Actuator maker");
    assertThat(Command.run("judge", record, "--json").out().replaceAll("\\s+", " "))
        .contains("\"tag\" : \"FV-101\", \"actuator_model\" : \"IA-15\"");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--ambient-c    | 400 | --ambient-c: found 400, allowed are -40 to 85 °C",
        "--ambient-c    | NaN | allowed is a number",
        "--humidity-pct | -1  | --humidity-pct: found -1, allowed are 0 to 100 %",
        "--received     | 2026-02-30 | --received: found \"2026-02-30\", allowed is a date such as",
        "--valve-serial | ' ' | --valve-serial: allowed is a text that is not blank",
        "--customer     | ' ' | --customer: allowed is a text that is not blank"
      })
  void whatCantBeIsOneClearMessage(String option, String value, String message) {
    Command command = judge(option, value);
    assertThat(command.code()).isEqualTo(2);
    assertThat(command.err()).contains(message).doesNotContain("Exception");
  }
}
