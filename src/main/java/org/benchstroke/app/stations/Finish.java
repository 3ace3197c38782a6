package org.benchstroke.app.stations;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Archiving;
import org.benchstroke.app.Outcome;
import org.benchstroke.app.RecordStore;
import org.benchstroke.app.Reports;
import org.benchstroke.app.Session;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.jobs.Attempt;
import org.benchstroke.jobs.JobKey;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.RecordReader;

/** What is done when a run has ended: judged, reported, archived, put beside the one as found. */
final class Finish {
  /** So many earlier attempts are judged for the page; the desk shows them all. */
  private static final int MOST_ATTEMPTS = 8;

  private final Place place;

  Finish(Place place) {
    this.place = place;
  }

  /** A run that left nothing to be judged. */
  static Ended failed(String why) {
    return new Ended(Optional.empty(), Optional.empty(), Optional.empty(), List.of(), List.of(why));
  }

  Ended of(Outcome outcome, Session session) throws IOException {
    List<String> said = new ArrayList<>(outcome.leftOut());
    if (!outcome.result().recorded()) {
      said.add("the record was lost: " + outcome.result().reason());
      return new Ended(Optional.of(outcome), Optional.empty(), Optional.empty(), List.of(), said);
    }
    try {
      TwinAndCauses aids = Reports.write(outcome.files());
      if (aids.run().imported().isEmpty()) {
        aids.diagnosis();
      }
      place
          .archive()
          .ifPresent(at -> said.addAll(Archiving.afterRun(at, outcome.files().record(), aids)));
      Attempts attempts = attempts(outcome.files().record(), aids.run(), session);
      return new Ended(
          Optional.of(outcome),
          Optional.of(aids),
          attempts.beside(aids.run()),
          attempts.lines(),
          said);
    } catch (RecordReader.NotARecord | FileMistakes e) {
      said.add("the record can't be judged: " + e.getMessage());
      return new Ended(Optional.of(outcome), Optional.empty(), Optional.empty(), List.of(), said);
    }
  }

  /** An attempt and its judgement. */
  private record Judged(AttemptLine line, JudgedRun run) {}

  /** All of a job, the first first. */
  private record Attempts(List<Judged> all) {
    List<AttemptLine> lines() {
      return all.stream().map(Judged::line).toList();
    }

    /** As found is the first whole one; nothing stands beside itself. */
    Optional<Adjustment> beside(JudgedRun run) {
      return all.stream()
          .filter(j -> j.line().whole())
          .findFirst()
          .map(Judged::run)
          .filter(found -> Adjustment.obstacles(found, run).isEmpty())
          .map(found -> new Adjustment(found, run, ""));
    }
  }

  private Attempts attempts(Path record, JudgedRun run, Session session) throws IOException {
    JobKey key = new JobKey(session.plan().order(), session.plan().serial());
    List<Judged> all = new ArrayList<>();
    List<Path> files =
        new RecordStore(place.records())
            .mayBeOf(key.serial())
            .sorted(Comparator.reverseOrder())
            .limit(MOST_ATTEMPTS)
            .toList();
    for (Path each : files) {
      boolean itself = each.getFileName().equals(record.getFileName());
      judged(each, itself ? Optional.of(run) : Optional.empty(), key, run.simulated())
          .ifPresent(all::add);
    }
    all.sort(Comparator.comparing(j -> j.line().begun()));
    return new Attempts(all);
  }

  /** Empty if it is of another job, or can't be judged. */
  private static Optional<Judged> judged(
      Path file, Optional<JudgedRun> known, JobKey key, boolean simulated) {
    try {
      JudgedRun run = known.isPresent() ? known.get() : Reports.judge(file);
      Attempt attempt = Attempt.of(file, run);
      if (!attempt.key().equals(Optional.of(key)) || attempt.simulated() != simulated) {
        return Optional.empty();
      }
      AttemptLine line =
          new AttemptLine(
              file, attempt.begun(), attempt.verdict(), attempt.whole(), attempt.reason());
      return Optional.of(new Judged(line, run));
    } catch (RecordReader.NotARecord | FileMistakes e) {
      return Optional.empty();
    }
  }
}
