package org.benchstroke.judge;

import java.util.Optional;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Event;

/**
 * A wait for rest, as the record holds it. Immutable.
 *
 * @param passage in which it was waited for
 * @param found how the wait ended
 * @param aim what the step was for; empty between the steps
 * @param after the rest of the passage
 */
public record RestWait(Passage passage, Event.Rested found, Optional<Aim> aim, Lines after) {
  /** Whether it was for that. */
  public boolean isFor(Aim other) {
    return aim.filter(other::equals).isPresent();
  }
}
