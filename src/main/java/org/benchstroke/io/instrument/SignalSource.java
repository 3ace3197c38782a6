package org.benchstroke.io.instrument;

import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;

/** Role: makes the setpoint current of the loop. The runner's thread owns it. */
public interface SignalSource {
  /** The smallest current that it can make. */
  Current lowest();

  /** The largest current that it can make. */
  Current highest();

  /**
   * Makes the current, with the output on, and reads the setting back.
   *
   * @return the setting that the instrument reports
   * @throws InstrumentException if it can't be said that the setting took effect
   */
  Reading<Current> apply(Current current, Deadline deadline) throws InstrumentException;

  /**
   * What it makes now, by its own word. Nothing is set: a source that lost its setting says so.
   *
   * @return empty if it can't tell
   * @throws InstrumentException if it did not answer
   */
  Optional<State> held(Deadline deadline) throws InstrumentException;

  /**
   * What a source says of itself.
   *
   * @param setting what it is set to
   * @param output whether its output is on
   */
  record State(Current setting, boolean output) {
    @Override
    public String toString() {
      return setting + (output ? "" : " with its output off");
    }
  }

  /**
   * The failure of a setting that reads back otherwise. A source that says less than it was told
   * more likely can't than is another instrument than the bench file says.
   */
  static InstrumentException readBackOtherwise(
      InstrumentException failure, Current wanted, Current found) {
    return found.compareTo(wanted) < 0
        ? failure.remediedBy(
            "the source is at the end of its range or of its voltage, or the loop's resistance is"
                + " too high: check these first, then that the bench file describes this"
                + " instrument")
        : failure;
  }

  /** Whether it can open the loop; if not, {@link #release} is always refused. */
  default boolean opensLoop() {
    return true;
  }

  /**
   * Opens the loop (output off). To a unit this is a signal like any other and may cause motion.
   */
  void release(Deadline deadline) throws InstrumentException;
}
