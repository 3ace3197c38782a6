package org.benchstroke.setup;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.procedure.Caution;

/**
 * How far a set-up is, for whoever shows it. Immutable; any thread.
 *
 * @param number of the question that is asked now; an answer quotes it, so that none counts that
 *     was given to another one. Live values change without it
 * @param step which step it is
 * @param place its place among all, from 1
 * @param of how many there are
 * @param caution the caution that must be read first; empty once the step itself is to be done
 * @param live what is read just now
 * @param allowed what can be answered now
 * @param done what was done before, in order
 * @param differences what of the unit is not as ordered, as far as it is known
 * @param notice what became of the last answer if it did not count, or what is wrong at the bench;
 *     empty if there is nothing
 * @param powerOn whether the motor's supply is on, or the air
 * @param ended how it ended; empty while it goes on
 */
public record SetUpState(
    long number,
    Step step,
    int place,
    int of,
    Optional<Caution> caution,
    Live live,
    Set<SetUpAnswer.Kind> allowed,
    List<DoneStep> done,
    List<Difference> differences,
    String notice,
    boolean powerOn,
    Optional<End> ended) {
  public SetUpState {
    allowed = Set.copyOf(allowed);
    done = List.copyOf(done);
    differences = List.copyOf(differences);
  }

  /**
   * A step that has ended.
   *
   * @param key which
   * @param outcome what became of it
   * @param words its figures and facts in a line; empty if there are none
   */
  public record DoneStep(StepKey key, Outcome outcome, String words) {}

  /**
   * How a set-up ended.
   *
   * @param how "complete", "came set up", "stopped" or "fault"
   * @param reason in words
   * @param safe what became of the safe signal
   * @param power what became of the motor's supply
   */
  public record End(String how, String reason, String safe, String power) {
    /** Whether the unit is set up. */
    public boolean whole() {
      return how.equals(COMPLETE) || how.equals(CAME_SET_UP);
    }
  }

  /** All steps are done, or skipped with a reason. */
  public static final String COMPLETE = "complete";

  /** The unit came set up. */
  public static final String CAME_SET_UP = "came set up";

  /** Somebody ended it. */
  public static final String STOPPED = "stopped";

  /** It could not go on. */
  public static final String FAULT = "fault";
}
