package org.benchstroke.papers.sheets;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.record.Event;
import org.benchstroke.record.Seal;

/**
 * Whether a paper is a certificate, or a test report and why. Immutable.
 *
 * @param obstacles what keeps it from being a certificate; empty for one that is
 */
record Standing(List<Obstacle> obstacles) {
  Standing {
    obstacles = List.copyOf(obstacles);
  }

  /** What keeps a paper from being a certificate. Its words have its name as their key. */
  enum Obstacle {
    SIMULATED,
    RECORDED_ELSEWHERE,
    CHANGED,
    DAMAGED,
    INTERRUPTED,
    NOT_WHOLE,
    OVERDUE,
    WRONG_INSTRUMENT,
    NOT_SEALED,
    NO_SHOP,
    NOT_AUTHORISED
  }

  static Standing of(Subject subject, Issue issue) {
    List<Obstacle> found = new ArrayList<>();
    for (Obstacle each : Obstacle.values()) {
      boolean inRun = subject.all().stream().anyMatch(filed -> has(filed.run(), each));
      boolean inIssue =
          switch (each) {
            case NO_SHOP -> issue.letterhead().isEmpty();
            case NOT_AUTHORISED -> issue.authorised().isEmpty();
            default -> false;
          };
      if (inRun || inIssue) {
        found.add(each);
      }
    }
    return new Standing(found);
  }

  boolean certifies() {
    return obstacles.isEmpty();
  }

  private static boolean has(JudgedRun run, Obstacle obstacle) {
    return switch (obstacle) {
      case SIMULATED -> run.simulated();
      case RECORDED_ELSEWHERE -> run.imported().isPresent();
      case CHANGED -> !run.record().doubts().isEmpty();
      case DAMAGED -> !run.record().flaws().isEmpty();
      case INTERRUPTED -> run.record().closed().isEmpty();
      case NOT_WHOLE -> !run.complete();
      case OVERDUE -> overdue(run);
      case WRONG_INSTRUMENT ->
          run.record()
              .events(Event.Identified.class)
              .anyMatch(said -> !said.matches() && !said.found().isEmpty());
      // without a seal nobody knows whether it is as it was written
      case NOT_SEALED ->
          run.record().seal().map(s -> s.state() == Seal.State.NOT_SEALED).orElse(true);
      case NO_SHOP, NOT_AUTHORISED -> false;
    };
  }

  private static boolean overdue(JudgedRun run) {
    return run.bench().instruments().stream().anyMatch(each -> overdue(run, each));
  }

  /** Whether the instrument's certificate says nothing of the day of the run. */
  static boolean overdue(JudgedRun run, InstrumentSpec instrument) {
    LocalDate day = ReportPages.began(run).atZone(ZoneOffset.UTC).toLocalDate();
    return instrument.calibration().uncovered(day).isPresent();
  }
}
