package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a found error does to the demo's recorded trace, which is judged as a real unit's. */
class LookBackCommandTest {
  @TempDir Path folder;

  private Path record;
  private JsonNode judged;

  @BeforeEach
  void archived() throws Exception {
    record = folder.resolve("trace.jsonl");
    List<Object> judge = new ArrayList<>(List.of("judge", "demo-data/recorded/trace.csv"));
    judge.addAll(List.of("--bench", "demo-data/benches/logger.toml"));
    judge.addAll(List.of("--unit-type", "demo-data/unit-types/quarter-turn-15s.toml"));
    judge.addAll(List.of("--serial", "QT-7", "--date", "2026-06-01", "--record", record));
    assertThat(Command.run(judge.toArray()).err()).isEmpty();
    judged = new ObjectMapper().readTree(Command.run("judge", record, "--json").out());
    assertThat(
            Command.run("archive", "rebuild", folder, "--archive", folder.resolve("archive.sqlite"))
                .code())
        .isZero();
  }

  private Command lookBack(Object... more) {
    List<Object> arguments = new ArrayList<>(List.of("look-back", "--records", folder));
    arguments.addAll(List.of(more));
    return Command.run(arguments.toArray());
  }

  private JsonNode run(int code, String instrument, String error) throws Exception {
    Command asked =
        lookBack("--instrument", instrument, "--since", "2026-05-01", "--error", error, "--json");
    assertThat(asked.code()).as(asked.err()).isEqualTo(code);
    return new ObjectMapper().readTree(asked.out()).get("runs").get(0);
  }

  /** 0.02 mA of the 16 mA between 4 and 20 mA are 0.125 % of travel. */
  @Test
  void anErrorInMilliampsIsOneInTravel() throws Exception {
    JsonNode run = run(0, "LG-2", "0.02mA");
    assertThat(run.get("fate").asText()).isEqualTo("kept");
    assertThat(run.get("measures")).isNotEmpty();
    for (JsonNode measure : run.get("measures")) {
      assertThat(measure.get("shift").asDouble()).isCloseTo(0.125, within(1e-12));
      assertThat(measure.get("truth").asText()).isEqualTo("feedback");
    }
  }

  /** Each word by ILAC-G8:09/2019 4.2.3 with w = U, worked out here from the judgement's file. */
  @Test
  void everyWordIsThatOfTheRule() throws Exception {
    JsonNode run = run(1, "LG-2", "0.9 %");
    Set<String> fates = new HashSet<>();
    for (JsonNode measure : run.get("measures")) {
      JsonNode before = ofJudgement(measure);
      double value = before.get("value").asDouble();
      assertThat(measure.get("before").asText()).isEqualTo(word(before, value));
      assertThat(measure.get("lower").asText()).isEqualTo(word(before, value - 0.9));
      assertThat(measure.get("higher").asText()).isEqualTo(word(before, value + 0.9));
      boolean kept = true;
      for (int i = -900; i <= 900; i++) {
        kept &= word(before, value + i / 1000.0).equals(word(before, value));
      }
      assertThat(measure.get("fate").asText().equals("kept")).isEqualTo(kept);
      fates.add(measure.get("fate").asText());
    }
    assertThat(fates).contains("changed");
  }

  private JsonNode ofJudgement(JsonNode measure) {
    for (JsonNode each : judged.get("measures")) {
      if (each.get("kind").equals(measure.get("measure"))
          && each.get("place_id").equals(measure.get("place"))
          && each.get("truth").equals(measure.get("truth"))) {
        return each;
      }
    }
    throw new AssertionError("not in the judgement: " + measure);
  }

  private static String word(JsonNode measure, double value) {
    double low = measure.path("limit_low").asDouble(Double.NEGATIVE_INFINITY);
    double high = measure.path("limit_high").asDouble(Double.POSITIVE_INFINITY);
    double guard = measure.get("u").asDouble();
    if (value >= low + guard && value <= high - guard) {
      return "pass";
    }
    if (value >= low && value <= high) {
      return "conditional pass";
    }
    return value >= low - guard && value <= high + guard ? "conditional fail" : "fail";
  }

  @Test
  void whatIsKnownByAnotherIsNotTouched() throws Exception {
    Command volts = lookBack("--instrument", "LG-2", "--since", "2026-05-01", "--error", "0.2V");
    assertThat(volts.code()).isZero();
    assertThat(volts.out()).contains("No measure that was judged is known by it in this unit");
    assertThat(volts.out().lines()).allMatch(line -> line.length() <= 80);
    Command bench =
        lookBack(
            "--bench", "Bench with a logger", "--since", "2026-05-01", "--error", "0.9%", "--all");
    assertThat(bench.code()).isEqualTo(1);
    assertThat(bench.out()).contains("Jobs: 1 changed.");
    assertThat(bench.out().lines()).allMatch(line -> line.length() <= 80);
  }

  @Test
  void aRecordThatIsNotAsItWasIsToldAndNotJudged() throws Exception {
    Files.writeString(record, "\n", StandardOpenOption.APPEND);
    Command changed =
        lookBack("--instrument", "LG-2", "--since", "2026-05-01", "--error", "0.02mA");
    assertThat(changed.code()).isEqualTo(1);
    assertThat(changed.out()).contains("trace.jsonl: its bytes have changed since it was archived");
    Files.delete(record);
    Command gone = lookBack("--instrument", "LG-2", "--since", "2026-05-01", "--error", "0.02mA");
    assertThat(gone.code()).isEqualTo(1);
    assertThat(gone.out()).contains("trace.jsonl: its record is not in ", "Jobs: 1 not judged.");
  }

  @Test
  void aWrongRequestIsALine() {
    assertThat(lookBack("--instrument", "LG-2", "--since", "2026-05-01", "--error", "much").err())
        .isEqualTo(
            "--error: found \"much\", allowed is a number with mA, % (of travel), deg, V or s:"
                + " 0.02mA\n");
    assertThat(lookBack("--since", "2026-05-01", "--error", "1%").err())
        .isEqualTo("look-back: whose error is it? Add --instrument or --bench\n");
    Command none = lookBack("--instrument", "X", "--since", "2026-05-01", "--error", "1%");
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err()).contains("has no real run with it since 2026-05-01");
  }
}
