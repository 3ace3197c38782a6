package org.benchstroke.io.scpi;

import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.instrument.TextReply;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkOpener;

/**
 * One connection to an instrument that speaks SCPI, shared by every role behind the same endpoint.
 * Whenever it has been opened, {@code *CLS} comes first: an error that was in the queue before is
 * not blamed on a command of ours (IEEE 488.2 10.3: it clears the queue).
 *
 * <p>Source: IEEE 488.2-1992 and SCPI-1999, syntax from memory. One thread owns it.
 */
public final class ScpiLine {
  private static final String CLEAR = "*CLS";

  /** Has bit 5 of the status byte stand for the four kinds of error (IEEE 488.2 11.5.1.3). */
  private static final String ENABLE_ERRORS = "*ESE 60";

  private final TextLine text;
  private final ScpiHabits habits;
  private int clearedAt;
  private int enabledAt;

  /** Opens nothing yet; messages and replies end with a line feed. */
  public ScpiLine(LinkOpener links, Endpoint endpoint, BenchClock clock) {
    this(new TextLine(links, endpoint, clock), ScpiHabits.USUAL);
  }

  /**
   * Opens nothing yet.
   *
   * @param text the connection, maybe shared with other instruments
   * @param habits what ends messages and replies, and the like
   */
  public ScpiLine(TextLine text, ScpiHabits habits) {
    this.text = text;
    this.habits = habits;
  }

  /**
   * Opens the connection if it is not open, and clears the instrument's status and errors.
   *
   * @param instrument on whose behalf, for the message of a failure
   */
  public void open(String instrument, Deadline deadline) throws InstrumentException {
    int opened = text.open(instrument, deadline);
    if (opened != clearedAt) {
      text.tell(instrument, habits.manner(), CLEAR, deadline);
      clearedAt = opened;
    }
  }

  ScpiHabits habits() {
    return habits;
  }

  /** Closes the connection; may be repeated. The next exchange opens it again. */
  public void close() {
    text.close();
  }

  /**
   * Sends a command, to which there is no reply. The first one comes after the mask that the status
   * byte needs: who only asks changes nothing in the instrument.
   *
   * @return bench time when it was sent
   */
  long tell(String instrument, String command, Deadline deadline) throws InstrumentException {
    open(instrument, deadline);
    boolean events = habits.checking() == ScpiHabits.Checking.STATUS_BYTE;
    if (events && enabledAt != clearedAt) {
      text.tell(instrument, habits.manner(), ENABLE_ERRORS, deadline);
      enabledAt = clearedAt;
    }
    return text.tell(instrument, habits.manner(), command, deadline);
  }

  /** Sends a question and waits for its one line. */
  TextReply ask(String instrument, String question, Deadline deadline) throws InstrumentException {
    open(instrument, deadline);
    return text.ask(instrument, habits.manner(), question, deadline);
  }

  InstrumentException badReply(String instrument, String exchange, String detail) {
    return text.badReply(instrument, exchange, detail);
  }

  InstrumentException refused(String instrument, String exchange, String detail) {
    return text.refused(instrument, exchange, detail);
  }
}
