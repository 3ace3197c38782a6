package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A unit before and after its zero was set. */
class CompareCommandTest {
  @TempDir Path folder;

  private Path test(String simulation, String records) throws Exception {
    List<Object> run = new ArrayList<>(List.of("run", "--unattended"));
    run.addAll(List.of("--simulation", "simulators/" + simulation + ".toml"));
    run.addAll(List.of("--procedure", "demo-data/procedures/short-acceptance.toml"));
    run.addAll(List.of("--serial", "QT-1", "--operator", "Ann", "--order", "1"));
    run.addAll(List.of("--records", folder.resolve(records)));
    Command.run(run.toArray());
    try (Stream<Path> files = Files.list(folder.resolve(records))) {
      return files.filter(f -> f.toString().endsWith(".jsonl")).sorted().findFirst().orElseThrow();
    }
  }

  @Test
  void twoRunsSideBySide() throws Exception {
    Path before = test("zero-shift", "before");
    Path after = test("healthy-b", "after");
    Path picture = folder.resolve("both.svg");
    Command told = Command.run("compare", before, after, "--svg", picture);
    assertThat(told.code()).as(told.err()).isZero();
    assertThat(told.out().lines()).allMatch(line -> line.length() <= 80);
    assertThat(told.out())
        .contains("SIMULATED", "verdict", "failed", "passed", "travel error at 50 % up")
        .contains(" measures differ beyond their U; --all lists the others.")
        .doesNotContain("operator");
    assertThat(Files.readString(picture)).contains("SIMULATED: Travel errors of two runs");

    JsonNode json =
        new ObjectMapper().readTree(Command.run("compare", before, after, "--json").out());
    JsonNode first = new ObjectMapper().readTree(Command.run("judge", before, "--json").out());
    int checked = 0;
    for (JsonNode measure : json.get("measures")) {
      for (JsonNode own : first.get("measures")) {
        if (own.get("kind").equals(measure.get("measure"))
            && own.get("place_id").equals(measure.get("place"))
            && own.get("truth").equals(measure.get("truth"))
            && measure.has("e_n")) {
          double apart = own.get("value").asDouble() - measure.get("second").asDouble();
          double u = own.get("u").asDouble();
          double other = measure.get("second_u").asDouble();
          double expected = Math.abs(apart) / Math.sqrt(u * u + other * other);
          assertThat(measure.get("e_n").asDouble()).isCloseTo(expected, within(1e-12));
          assertThat(measure.get("differ").asBoolean()).isEqualTo(expected > 1.0);
          checked++;
        }
      }
    }
    assertThat(checked).isGreaterThan(10);
    assertThat(first.get("report")).isEqualTo(json.get("first").get("report"));

    String number = json.get("first").get("report").asText();
    List<Object> byNumber = new ArrayList<>(List.of("compare", number, after));
    byNumber.addAll(List.of("--records", folder.resolve("before")));
    assertThat(Command.run(byNumber.toArray()).out()).isEqualTo(told.out());
    Command none = Command.run("compare", "BS-QT-1", after, "--records", folder.resolve("before"));
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err()).startsWith("BS-QT-1: is no report number of a run of this program");
    Command other =
        Command.run(
            "compare", "BS-QT-9-20200101T000000Z", after, "--records", folder.resolve("before"));
    assertThat(other.err()).contains("the archive has no run with this report number");
    Command over = Command.run("compare", before, after, "--svg", after);
    assertThat(over.code()).isEqualTo(2);
    assertThat(Files.readString(after)).startsWith("{");
  }
}
