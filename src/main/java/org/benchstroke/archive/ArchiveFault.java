package org.benchstroke.archive;

/** The archive can't be used. The message says which, why and what to do, in one line. */
public final class ArchiveFault extends Exception {
  private static final long serialVersionUID = 1L;

  private final Kind kind;

  /** What lies behind it. */
  public enum Kind {
    /** What was asked for can't be: there is no such archive, or it is not ours to use. */
    WRONG_REQUEST,
    /** Its file is spoilt; the records make another. */
    DAMAGED,
    /** It can't be used now. */
    FAILED
  }

  ArchiveFault(String message) {
    super(message);
    this.kind = Kind.WRONG_REQUEST;
  }

  ArchiveFault(Kind kind, String message, Throwable cause) {
    super(message, cause);
    this.kind = kind;
  }

  public Kind kind() {
    return kind;
  }
}
