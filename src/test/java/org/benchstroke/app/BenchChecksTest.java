package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.app.BenchChecks.Checked;
import org.benchstroke.app.BenchChecks.Occasion;
import org.benchstroke.archive.ArchivedCheck;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A bench's own checks. Ten readings in turn 0.001 mA above and below 12 mA have a standard
 * deviation of 0.001·√(10/9) = 0.001054 mA, so 2σ is 0.0021 mA and 3σ 0.0032 mA.
 */
class BenchChecksTest {
  private static final Instant START = Instant.parse("2026-06-01T06:00:00Z");

  @TempDir Path folder;

  private BenchChecks checks;
  private int days;

  @BeforeEach
  void baseline() throws Exception {
    checks = new BenchChecks(folder.resolve("records"));
    for (int i = 0; i < 10; i++) {
      read(12.0 + (i % 2 == 0 ? 0.001 : -0.001));
    }
  }

  /** Who, when and why stand in a line of their own; the line that was typed wrong stays. */
  @Test
  void aReadingIsAmendedAndItsLineStays() throws Exception {
    Instant at = Instant.parse("2026-06-01T08:00:00.250Z");
    Map<String, Double> read = new LinkedHashMap<>();
    read.put("loop at 4 mA", 4.01);
    read.put("loop at 12 mA", 12.0);
    checks.append(new Occasion(at, "Bench B", false, "Ann", "read by eye", read, false, false));
    List<String> before = Files.readAllLines(checks.file());
    Instant now = Instant.parse("2026-06-01T09:00:00Z");
    String four = "loop at 4 mA";
    checks.amend("Bench B", false, at, four, OptionalDouble.of(4.001), "Eve", "typing slip", now);
    assertThat(checks.of("Bench B", false)).hasSize(1);
    assertThat(checks.of("Bench B", false).get(0).readings())
        .isEqualTo(Map.of("loop at 4 mA", 4.001, "loop at 12 mA", 12.0));
    checks.amend("Bench B", false, at, four, OptionalDouble.empty(), "Eve", "wrong meter", now);
    assertThat(checks.of("Bench B", false).get(0).readings()).containsOnlyKeys("loop at 12 mA");
    List<String> lines = Files.readAllLines(checks.file());
    assertThat(lines).hasSize(13).startsWith(before.toArray(String[]::new));
    assertThat(lines.get(11))
        .contains("Eve", "typing slip", "2026-06-01T09:00:00Z", "\"was\":4.01");
    assertThat(lines.get(12)).contains("\"was\":4.001", "wrong meter").doesNotContain("\"is\"");
    assertThatThrownBy(
            () -> checks.amend("Bench B", false, at, four, OptionalDouble.of(1), "Eve", "x", now))
        .hasMessageContaining("was taken back already");
    assertThatThrownBy(
            () ->
                checks.amend(
                    "Bench B", false, at.plusSeconds(1), four, OptionalDouble.of(1), "E", "x", now))
        .hasMessageContaining(
            "the newest are of 2026-06-01T08:00:00Z (loop at 4 mA, loop at 12 mA)");
    // What the archive gives back says the same.
    List<String> kept =
        checks.archived().stream()
            .filter(c -> c.bench().equals("Bench B"))
            .map(ArchivedCheck::line)
            .toList();
    assertThat(kept).isEqualTo(lines.subList(10, 13));
    assertThat(BenchChecks.of(kept)).isEqualTo(checks.of("Bench B", false));
  }

  private void read(double value) throws Exception {
    add(Map.of("loop at 12 mA", value), false, false);
  }

  private void add(Map<String, Double> readings, boolean note, boolean anew) throws Exception {
    Instant at = START.plusSeconds(86_400L * days++);
    checks.append(new Occasion(at, "Bench A", false, "Ann", "made up", readings, note, anew));
  }

  private Checked one() throws Exception {
    List<Checked> judged = BenchChecks.judged(checks.of("Bench A", false));
    assertThat(judged).hasSize(1);
    return judged.get(0);
  }

  private void refused() {
    assertThatThrownBy(() -> checks.requireFit("Bench A", false))
        .isInstanceOf(WrongRequest.class)
        .hasMessageStartingWith("Bench Bench A: its own check, loop at 12 mA, says STOP, +3.8σ;");
  }

  @Test
  void aGoodReadingAfterAStopLetsTheBenchGoOn() throws Exception {
    read(12.0021);
    assertThat(one().words()).isEqualTo("good, +2.0σ");
    read(12.0022);
    assertThat(one().words()).startsWith("WARNING, +2.1σ");
    checks.requireFit("Bench A", false);
    assertThat(checks.said("Bench A", false))
        .containsExactly("the bench's own check, loop at 12 mA: WARNING, +2.1σ");
    read(12.0040);
    refused();
    checks.requireFit("Bench A", true); // another bench altogether
    checks.requireFit("Bench B", false);
    read(12.0005);
    checks.requireFit("Bench A", false);
    assertThat(checks.said("Bench A", false)).isEmpty();
    // what was no good stays in the list of what wants an answer
    assertThat(one().check().stops()).hasSize(1);
  }

  @Test
  void aNoteAnswersAStopAndMayBeginAnew() throws Exception {
    read(12.0040);
    refused();
    add(Map.of(), true, false);
    checks.requireFit("Bench A", false);
    assertThat(one().words()).isEqualTo("STOP, +3.8σ, answered by a note");
    read(12.0040);
    refused();
    add(Map.of(), true, true);
    assertThat(BenchChecks.judged(checks.of("Bench A", false))).isEmpty();
    read(12.0040);
    assertThat(one().words()).isEqualTo("baseline: 1 of 10");
    checks.requireFit("Bench A", false);
  }

  /** The power fell in the middle of a line: what comes next stands whole on a line of its own. */
  @Test
  void aTornLineIsLeftOutAndTheNextOneIsWhole() throws Exception {
    Files.writeString(checks.file(), "{\"format\":1,\"utc\":\"2026-", StandardOpenOption.APPEND);
    assertThat(one().count()).isEqualTo(10);
    read(12.0);
    assertThat(one().count()).isEqualTo(11);
  }

  @Test
  void aStrangeLineIsNotPassedOver() throws Exception {
    Files.writeString(checks.file(), "{\"format\":2}\n", StandardOpenOption.APPEND);
    assertThatThrownBy(() -> checks.requireFit("Bench A", false))
        .isInstanceOf(WrongRequest.class)
        .hasMessageStartingWith(checks.file() + ":11: is no check of a bench");
  }
}
