package org.benchstroke.app;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Resumption;
import org.benchstroke.run.RunPlan;
import org.benchstroke.tests.RecordedRun;

/** What can be taken over of an interrupted run, if anything can. Stateless. */
final class ResumedRun {
  /**
   * After so long the unit is to be tested as a whole: who knows what was done to it. Own choice.
   */
  private static final Duration LONGEST = Duration.ofHours(24);

  private ResumedRun() {}

  /**
   * Reads the record.
   *
   * @param plan what is to be run now: the same as then
   * @param now by the wall clock
   * @throws WrongRequest if nothing can be taken over; the message says why
   */
  static Resumption of(Path file, RunPlan plan, Instant now) throws WrongRequest {
    try {
      return read(file, plan, now);
    } catch (RecordReader.NotARecord | FileMistakes e) {
      throw refused(file, e.getMessage());
    }
  }

  private static Resumption read(Path file, RunPlan plan, Instant now)
      throws WrongRequest, RecordReader.NotARecord, FileMistakes {
    RunRecord record = RecordReader.read(file);
    requireInterrupted(file, record, now);
    requireSame(file, record, plan);
    JudgedRun judged = RecordedRun.judge(record);
    Set<Integer> whole = whole(judged);
    int end = end(record.entries(), whole);
    if (end <= 1) {
      throw refused(file, "no test is whole in it; run again without --resume");
    }
    List<Entry> lines = record.entries().subList(1, end);
    return new Resumption(
        new Event.Resumed(
            file.getFileName().toString(), record.digest().orElseThrow().sha256(), lines.size()),
        lines,
        whole);
  }

  private static void requireInterrupted(Path file, RunRecord record, Instant now)
      throws WrongRequest {
    if (record.closed().isPresent()) {
      throw refused(file, "it was not interrupted: it has its end");
    }
    if (!record.doubts().isEmpty()) {
      throw refused(file, String.join("; ", record.doubts()));
    }
    if (record.events(Event.Imported.class).findAny().isPresent()) {
      throw refused(file, "it was recorded elsewhere");
    }
    List<Entry> entries = record.entries();
    // A simulation's clock may be ahead of the wall's.
    Instant last = entries.get(entries.size() - 1).utc();
    if (Duration.between(last, now).abs().compareTo(LONGEST) > 0) {
      throw refused(
          file,
          "its last line is of " + last + ", not of the last 24 hours; run again without --resume");
    }
  }

  private static void requireSame(Path file, RunRecord record, RunPlan plan) throws WrongRequest {
    Event.Opened then = record.opened();
    List<String> others = new ArrayList<>();
    if (!then.serial().equals(plan.serial()) || !then.order().equals(plan.order())) {
      others.add("serial number " + then.serial() + " and order " + then.order());
    }
    if (!then.tool().equals(plan.tool())) {
      others.add("the program: " + then.tool());
    }
    for (int i = 0; i < plan.files().size(); i++) {
      Event.SourceFile now = plan.files().get(i);
      if (then.files().stream()
          .noneMatch(f -> f.kind().equals(now.kind()) && f.text().equals(now.text()))) {
        others.add("the " + now.kind() + " file, as the record holds it");
      }
    }
    if (!air(record).equals(plan.job().map(Event.Job::air).orElse(Map.of()))) {
      others.add("--ambient-c and --humidity-pct");
    }
    if (!others.isEmpty()) {
      throw refused(file, "these must be the same as then: " + String.join("; ", others));
    }
  }

  private static Map<String, Double> air(RunRecord record) {
    return record.events(Event.Job.class).map(Event.Job::air).findFirst().orElse(Map.of());
  }

  /** The tests that count, as the judge sees them: not all that ended as complete do. */
  private static Set<Integer> whole(JudgedRun judged) {
    Expansion plan =
        Expansion.of(judged.procedure(), judged.unit(), judged.bench().samplePeriodSeconds());
    return plan.tests().stream()
        .filter(test -> test.measures() && judged.tests().get(test.index()).complete())
        .map(test -> test.index())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** Behind the line that ends the last of them; 0 if there is none. */
  private static int end(List<Entry> entries, Set<Integer> whole) {
    int end = 0;
    for (int i = 0; i < entries.size(); i++) {
      if (entries.get(i).event() instanceof Event.TestEnded ended
          && whole.contains(ended.index())) {
        end = i + 1;
      }
    }
    return end;
  }

  private static WrongRequest refused(Path file, String why) {
    return new WrongRequest("--resume: " + file + ": can't be gone on with: " + why);
  }
}
