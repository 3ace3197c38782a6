package org.benchstroke.instrument.scpi;

import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.TextLine;
import org.benchstroke.instrument.TextReply;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.LinkOpener;

/**
 * One connection to an instrument that speaks SCPI, shared by every role behind the same endpoint.
 * Whenever it has been opened, {@code *CLS} comes first: an error that was in the queue before is
 * not blamed on a command of ours (IEEE 488.2 10.3: it clears the queue).
 *
 * <p>Source: IEEE 488.2-1992 and SCPI-1999, syntax from memory. One thread owns it.
 */
public final class ScpiLine {
  private static final String CLEAR = "*CLS";

  private final TextLine text;
  private final ScpiHabits habits;
  private int clearedAt;

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
   * Sends a command, to which there is no reply.
   *
   * @return bench time when it was sent
   */
  long tell(String instrument, String command, Deadline deadline) throws InstrumentException {
    open(instrument, deadline);
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
