package org.benchstroke.io.instrument;

import java.util.Optional;
import org.benchstroke.core.clock.Deadline;

/** What every instrument of a bench is, whatever its roles. The runner's thread owns it. */
public interface Instrument {
  /** Its name in the bench file. */
  String name();

  /** Opens the link if it is not open. No constructor does. */
  void connect(Deadline deadline) throws InstrumentException;

  /** Who it says it is; empty if it has no way of telling. */
  Optional<Identity> identify(Deadline deadline) throws InstrumentException;

  /**
   * Tells an instrument with a watchdog that the program lives, if that is due. To be called
   * between samples; most instruments need nothing.
   */
  default void keepAlive(Deadline deadline) throws InstrumentException {}

  /** Closes the link; never throws, may be repeated. */
  void disconnect();
}
