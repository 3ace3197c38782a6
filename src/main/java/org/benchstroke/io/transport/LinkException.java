package org.benchstroke.io.transport;

import java.io.IOException;

/** A link to an instrument that failed below the instrument's own language. */
public final class LinkException extends IOException {
  private static final long serialVersionUID = 1L;

  /** What failed; the two need different remedies. */
  public enum Kind {
    /** Nothing (or not enough) came before the deadline; the link itself may be sound. */
    NO_REPLY,
    /** The port, socket or cable is gone, or could not be opened. */
    PORT_GONE
  }

  private final Kind kind;

  public LinkException(Kind kind, String message) {
    super(message);
    this.kind = kind;
  }

  public LinkException(Kind kind, String message, Throwable cause) {
    super(message, cause);
    this.kind = kind;
  }

  public Kind kind() {
    return kind;
  }
}
