package org.benchstroke.jobs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordReader;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.tests.RecordedRun;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Which attempts belong together, and what they say of the unit. */
@Timeout(120)
class JobTest {
  private static final Instant DAY = Instant.parse("2026-06-01T08:00:00Z");
  private static final long LATER_NANOS = 900_000_000_000L;

  @TempDir Path folder;

  private static Attempt attempt(String order, String serial, int hours, Word verdict) {
    return new Attempt(
        Path.of("r-" + hours + ".jsonl"),
        DAY.plusSeconds(3600L * hours),
        order.isEmpty()
            ? Map.of(Label.SERIAL, serial)
            : Map.of(Label.ORDER, order, Label.SERIAL, serial),
        verdict,
        "a reason",
        verdict != Word.NO_RESULT,
        false,
        false,
        Attempt.Keeping.SEALED,
        "Acceptance",
        "QT 15");
  }

  private static Attempt simulated(Attempt a) {
    return new Attempt(
        a.record(),
        a.begun(),
        a.labels(),
        a.verdict(),
        a.reason(),
        a.whole(),
        true,
        false,
        a.keeping(),
        a.procedure(),
        a.unitType());
  }

  private static Job only(List<Attempt> attempts) {
    List<Job> jobs = Job.of(attempts);
    assertThat(jobs).hasSize(1);
    return jobs.get(0);
  }

  /**
   * As found 1.6 % off at 100 %, adjusted, as left 0.2 %: the first fails, the last passes, and
   * none of one passed at the first go. Both records stay as they were.
   */
  @Test
  void aUnitThatWasAdjustedFailedAsFoundAndPassedAsLeft() throws Exception {
    Path found = run(1.6, "found.jsonl", 0);
    Path left = run(0.2, "left.jsonl", LATER_NANOS);
    byte[] foundBytes = Files.readAllBytes(found);
    byte[] leftBytes = Files.readAllBytes(left);
    Job job = only(List.of(read(left), read(found)));
    assertThat(job.asFound().orElseThrow().record()).isEqualTo(found);
    assertThat(job.asFound().orElseThrow().verdict()).isEqualTo(Word.FAIL);
    assertThat(job.asLeft().orElseThrow().record()).isEqualTo(left);
    assertThat(job.asLeft().orElseThrow().verdict()).isEqualTo(Word.PASS);
    assertThat(job.firstPass()).isFalse();
    assertThat(job.simulated()).isTrue();
    assertThat(FirstPasses.of(List.of(job), true).text()).isEqualTo("0 of 1");
    assertThat(FirstPasses.of(List.of(job), false).found()).isZero();
    assertThat(Files.readAllBytes(found)).isEqualTo(foundBytes);
    assertThat(Files.readAllBytes(left)).isEqualTo(leftBytes);
  }

  private Path run(double spanPercent, String name, long nanos) {
    Simulation s = VirtualBench.simulation("healthy-b");
    VirtualBench bench =
        VirtualBench.with(
            s.withUnit(
                s.parameters().with(s.parameters().transmitter().withErrors(0.0, spanPercent))));
    bench.clock().waitUntil(nanos);
    return bench.runInto(folder.resolve(name));
  }

  private static Attempt read(Path record) throws Exception {
    return Attempt.of(record, RecordedRun.judge(RecordReader.read(record)));
  }

  @Test
  void aRunThatWasKilledIsListedAndIsNeitherAsFoundNorAsLeft() throws Exception {
    Path whole = run(0.0, "whole.jsonl", LATER_NANOS);
    String text = Files.readString(whole);
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    Random random = new Random(31);
    int opening = text.indexOf('\n') + 1;
    for (int i = 0; i < 20; i++) {
      int length = opening + random.nextInt(bytes.length - opening);
      Path killed = folder.resolve("killed-" + i + ".jsonl");
      Files.write(killed, java.util.Arrays.copyOf(bytes, length));
      Attempt attempt = read(killed);
      assertThat(attempt.keeping())
          .as("killed at byte %d", length)
          .isEqualTo(Attempt.Keeping.INTERRUPTED);
      Job job = only(List.of(attempt, read(whole)));
      assertThat(job.notWhole()).containsExactly(attempt);
      assertThat(job.asFound().orElseThrow().record()).isEqualTo(whole);
      assertThat(job.asLeft()).isEqualTo(job.asFound());
    }
  }

  @Test
  void theFirstWholeAttemptIsAsFoundWhateverFollowsAndInWhateverOrderItIsRead() {
    List<Attempt> attempts = new ArrayList<>();
    attempts.add(attempt("4711", "A-1", 0, Word.NO_RESULT));
    attempts.add(attempt(" 4711", "A-1 ", 1, Word.CONDITIONAL_PASS));
    Attempt found = attempts.get(1);
    Random random = new Random(11);
    for (int hours = 2; hours < 7; hours++) {
      attempts.add(attempt("4711", "A-1", hours, hours == 4 ? Word.PASS : Word.FAIL));
      Collections.shuffle(attempts, random);
      Job job = only(attempts);
      assertThat(job.asFound()).contains(found);
      assertThat(job.asLeft().orElseThrow().record()).hasToString("r-" + hours + ".jsonl");
      assertThat(job.firstPass()).isFalse();
      assertThat(job.notWhole()).hasSize(1);
    }
  }

  @Test
  void noConditionalPassIsAFirstPassAndOpenJobsAreInNeitherCount() {
    List<Attempt> attempts =
        List.of(
            attempt("1", "A", 0, Word.PASS),
            attempt("1", "B", 1, Word.CONDITIONAL_PASS),
            attempt("1", "C", 2, Word.FAIL),
            attempt("1", "C", 3, Word.PASS),
            attempt("1", "D", 4, Word.NO_RESULT),
            attempt("2", "A", 5, Word.PASS),
            attempt("", "A", 6, Word.PASS));
    assertThat(Job.of(attempts)).hasSize(5);
    assertThat(FirstPasses.of(Job.of(attempts), false)).isEqualTo(new FirstPasses(2, 4, 1));
  }

  @Test
  void simulatedAttemptsAreAJobOfTheirOwn() {
    Attempt real = attempt("1", "A", 0, Word.FAIL);
    Attempt toy = simulated(attempt("1", "A", 1, Word.PASS));
    List<Job> jobs = Job.of(List.of(real, toy));
    assertThat(jobs).hasSize(2).extracting(Job::simulated).containsExactly(false, true);
    assertThat(jobs.get(0).attempts()).containsExactly(real);
    JobKey key = new JobKey("1", "A");
    assertThatThrownBy(() -> new Job(key, false, List.of(real, toy)))
        .hasMessageContaining("is no attempt of this job");
  }

  @Test
  void afterFiveAttemptsTheNextOneIsAllowedBySomebody() {
    List<Attempt> attempts = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      attempts.add(attempt("1", "A", i, i == 0 ? Word.NO_RESULT : Word.FAIL));
      assertThat(only(attempts).needsSupervisor()).isEqualTo(i == 4);
    }
    List<Attempt> toys = attempts.stream().map(JobTest::simulated).toList();
    assertThat(only(toys).needsSupervisor()).isFalse();
  }

  @Test
  void whatNobodyNamedBelongsNowhere() {
    assertThat(JobKey.of(" ", "A")).isEqualTo(Optional.empty());
    assertThat(JobKey.of("1", "")).isEmpty();
    assertThat(JobKey.of(" 1 ", "A")).contains(new JobKey("1", "A"));
  }
}
