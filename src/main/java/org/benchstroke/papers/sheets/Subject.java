package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.ReportPages;

/**
 * What a paper is about: a run, or a unit as found and as left. Immutable.
 *
 * @param run the run; the later one of two
 * @param found the unit as it was found, if the paper is about both
 * @param adjusted what was done between the two, in the words of who did it; may be empty
 */
public record Subject(Filed run, Optional<Filed> found, String adjusted) {
  /** Of one run. */
  public static Subject of(Filed run) {
    return new Subject(run, Optional.empty(), "");
  }

  /** The run that the verdict is of. */
  JudgedRun judged() {
    return run.run();
  }

  /** As found, if there is one, then the run. */
  List<Filed> all() {
    List<Filed> all = new ArrayList<>();
    found.ifPresent(all::add);
    all.add(run);
    return all;
  }

  Optional<Adjustment> adjustment() {
    return found.map(f -> new Adjustment(f.run(), run.run(), adjusted));
  }

  /** The number of its papers, without what counts issues. */
  public String number() {
    return ReportPages.number(judged()) + (found.isPresent() ? "-with-as-found" : "");
  }

  /** SHA-256 of each record with its amendments, as text. */
  public List<String> digests() {
    return all().stream()
        .map(filed -> filed.run().record())
        .map(r -> r.digest().map(d -> d.sha256()).orElse("") + r.amendments().all())
        .toList();
  }

  boolean simulated() {
    return all().stream().anyMatch(filed -> filed.run().simulated());
  }
}
