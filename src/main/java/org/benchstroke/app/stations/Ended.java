package org.benchstroke.app.stations;

import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Outcome;
import org.benchstroke.judge.Adjustment;

/**
 * What came of a run. Immutable, but for the aids, which are computed already.
 *
 * @param outcome how it ended; empty if it could not begin
 * @param aids its judgement with its aids; empty where there is no record to judge
 * @param asFound the unit as it was found and as it is left, if this is not the first whole run
 * @param attempts those at this job, this one among them, the first first
 * @param said what a person should know of it beside that, a sentence each
 */
public record Ended(
    Optional<Outcome> outcome,
    Optional<TwinAndCauses> aids,
    Optional<Adjustment> asFound,
    List<AttemptLine> attempts,
    List<String> said) {
  public Ended {
    attempts = List.copyOf(attempts);
    said = List.copyOf(said);
  }
}
