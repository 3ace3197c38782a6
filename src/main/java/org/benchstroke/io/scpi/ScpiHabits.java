package org.benchstroke.io.scpi;

import org.benchstroke.io.instrument.TextManner;

/**
 * In what an instrument that speaks SCPI may differ from another.
 *
 * @param manner what ends messages and replies
 * @param settling how to wait until a command has been carried out
 * @param checking how to find out that a command went wrong
 */
public record ScpiHabits(TextManner manner, Settling settling, Checking checking) {
  /** Line feeds, no wait, the status byte and the error queue: all that SCPI-1999 demands. */
  public static final ScpiHabits USUAL =
      new ScpiHabits(TextManner.LINE_FEED, Settling.NONE, Checking.STATUS_BYTE);

  /** How to wait after a command. */
  public enum Settling {
    /** Not at all: commands are carried out in their order. */
    NONE("none"),
    /** {@code *OPC?} answers 1 once all is done (IEEE 488.2 10.19). */
    OPERATION_COMPLETE("*OPC?"),
    /** {@code *WAI}: what follows waits (IEEE 488.2 10.39). */
    WAIT("*WAI");

    private final String key;

    Settling(String key) {
      this.key = key;
    }

    /** The word for it in files, and what is sent. */
    public String key() {
      return key;
    }
  }

  /** How to find errors after a command. */
  public enum Checking {
    /**
     * {@code *STB?} and {@code SYSTem:ERRor?} in one message, after {@code *ESE 60} once: both are
     * of one instant (IEEE 488.2 10.36, 10.10 and 7.3.1).
     */
    STATUS_BYTE("status byte"),
    /** {@code SYSTem:ERRor?} until it answers 0. */
    ERROR_QUEUE("error queue"),
    /** {@code *ESR?}, for an instrument without an error queue (IEEE 488.2 11.5.1). */
    EVENT_STATUS("event status"),
    /**
     * The error queue, then {@code *ESR?}: the register also tells what fell out of a full queue.
     */
    BOTH("both");

    private final String key;

    Checking(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }
}
