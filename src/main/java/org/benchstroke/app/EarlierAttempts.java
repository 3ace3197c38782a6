package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.jobs.Attempt;
import org.benchstroke.jobs.Job;
import org.benchstroke.jobs.JobKey;
import org.benchstroke.record.RecordReader;

/**
 * What the records of a folder say of a unit before it is tested again: only those are opened whose
 * names may be of it, and only the last attempt of the job is judged. Immutable.
 *
 * @param attempts how many there are at this job; those that were not whole count
 * @param more whether there may be more: so many are told, and no more are looked at
 * @param last what became of the last of them, in words: "failed on 2026-11-30"
 * @param elsewhere what is known of the same serial number under other orders, a sentence each
 */
record EarlierAttempts(int attempts, boolean more, Optional<String> last, List<String> elsewhere) {
  /** So many records of one serial number are looked at: a start must not take long. Own choice. */
  private static final int MOST = 200;

  private static final int MOST_TOLD = 3;
  private static final List<String> ORDINALS =
      List.of("first", "second", "third", "fourth", "fifth");

  EarlierAttempts {
    elsewhere = List.copyOf(elsewhere);
  }

  /**
   * Those of a folder.
   *
   * @param simulated whether the unit is simulated: others are another job
   * @throws IOException if the folder can't be listed
   */
  static EarlierAttempts of(RecordStore store, JobKey job, boolean simulated) throws IOException {
    List<Path> candidates = store.mayBeOf(job.serial()).limit(MOST + 1L).toList();
    List<RecordStore.Named> same = new ArrayList<>();
    List<RecordStore.Named> others = new ArrayList<>();
    for (Path file : candidates.subList(0, Math.min(MOST, candidates.size()))) {
      named(store, file)
          .filter(n -> n.serial().equals(job.serial()) && n.simulated() == simulated)
          .ifPresent(n -> (n.order().equals(job.order()) ? same : others).add(n));
    }
    return new EarlierAttempts(
        same.size(),
        candidates.size() > MOST,
        same.stream().max(EarlierAttempts::byDate).map(EarlierAttempts::told),
        elsewhere(others));
  }

  /** Empty if it is no record: {@link LastRun} tells that. */
  private static Optional<RecordStore.Named> named(RecordStore store, Path file) {
    try {
      return Optional.of(store.named(file));
    } catch (RecordReader.NotARecord e) {
      return Optional.empty();
    }
  }

  private static int byDate(RecordStore.Named a, RecordStore.Named b) {
    return a.heading().begun().compareTo(b.heading().begun());
  }

  private static List<String> elsewhere(List<RecordStore.Named> others) {
    TreeSet<String> told = new TreeSet<>();
    for (RecordStore.Named other : others) {
      String order = other.order().isEmpty() ? "no order" : "order " + other.order();
      told.add(
          "this serial number was tested before under "
              + order
              + ", on "
              + day(other.heading().begun()));
    }
    return told.descendingSet().stream().limit(MOST_TOLD).toList();
  }

  private static String told(RecordStore.Named last) {
    return word(last) + " on " + day(last.heading().begun());
  }

  private static String word(RecordStore.Named last) {
    if (last.heading().closed().isEmpty()) {
      return "was interrupted";
    }
    Path file = last.heading().file();
    try {
      Attempt attempt = Attempt.of(file, Reports.judge(file));
      return attempt.whole()
          ? switch (attempt.verdict()) {
            case PASS -> "passed";
            case CONDITIONAL_PASS -> "passed with a condition";
            case CONDITIONAL_FAIL -> "failed with a condition";
            case FAIL -> "failed";
            case NO_RESULT -> "had no result";
          }
          : "was not completed";
    } catch (RecordReader.NotARecord | FileMistakes e) {
      return "can't be judged any more, made";
    }
  }

  private static LocalDate day(Instant begun) {
    return LocalDate.ofInstant(begun, ZoneOffset.UTC);
  }

  /** Whether the next attempt wants a supervisor's word. */
  boolean needsSupervisor(boolean simulated) {
    return Job.needsSupervisor(attempts, simulated);
  }

  /** What a person must know of it, a sentence each; none where the unit was never met. */
  List<String> sentences() {
    List<String> sentences = new ArrayList<>();
    last.ifPresent(
        what ->
            sentences.add(
                "attempt "
                    + (attempts + 1)
                    + (more ? " or later" : "")
                    + " of this job; the "
                    + (attempts <= ORDINALS.size() ? ORDINALS.get(attempts - 1) : "last")
                    + " "
                    + what));
    sentences.addAll(elsewhere);
    return sentences;
  }
}
