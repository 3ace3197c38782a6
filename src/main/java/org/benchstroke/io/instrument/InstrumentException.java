package org.benchstroke.io.instrument;

import org.benchstroke.io.transport.LinkException;

/**
 * An exchange with an instrument that failed. The message says which instrument, on which port,
 * what was sent and what came.
 */
public final class InstrumentException extends Exception {
  private static final long serialVersionUID = 1L;

  /** Different errors with different remedies. */
  public enum Kind {
    NO_REPLY("no reply", "check that the instrument is on and its address is right"),
    PORT_GONE("port gone", "check the cable and that the address in the bench file is right"),
    BAD_REPLY(
        "bad reply",
        "check the link and who else talks on it, and that the bench file describes this"
            + " instrument"),
    BEHIND_GATEWAY(
        "no reply from behind the gateway",
        "the gateway works: check that the instrument is on and its unit id is right"),
    REFUSED("instrument refused", "read the instrument's own error and its manual"),
    NO_VALUE("no value", "the instrument itself says that it measures nothing: check its input"),
    NOT_SET("not set by hand", "set it and say so, or stop the run"),
    FROZEN("frozen value", "check the link and what feeds the value");

    private final String words;
    private final String remedy;

    Kind(String words, String remedy) {
      this.words = words;
      this.remedy = remedy;
    }

    public String words() {
      return words;
    }

    public String remedy() {
      return remedy;
    }
  }

  private final Kind kind;
  private final String instrument;
  private final String port;
  private final String exchange;
  private final String detail;

  public InstrumentException(
      Kind kind, String instrument, String port, String exchange, String detail) {
    this(kind, instrument, port, exchange, detail, kind.remedy());
  }

  private InstrumentException(
      Kind kind, String instrument, String port, String exchange, String detail, String remedy) {
    super(
        instrument
            + " at "
            + port
            + ": "
            + kind.words()
            + ": "
            + detail
            + " ("
            + exchange
            + "); "
            + remedy);
    this.kind = kind;
    this.instrument = instrument;
    this.port = port;
    this.exchange = exchange;
    this.detail = detail;
  }

  /** A link's failure during an exchange. */
  public static InstrumentException of(
      LinkException failure, String instrument, String port, String exchange) {
    Kind kind =
        switch (failure.kind()) {
          case NO_REPLY -> Kind.NO_REPLY;
          case PORT_GONE -> Kind.PORT_GONE;
        };
    return new InstrumentException(kind, instrument, port, exchange, failure.getMessage());
  }

  /** The same failure, of which more is known than its kind: what to do about it. */
  public InstrumentException remediedBy(String remedy) {
    InstrumentException better =
        new InstrumentException(kind, instrument, port, exchange, detail, remedy);
    better.setStackTrace(getStackTrace());
    return better;
  }

  public Kind kind() {
    return kind;
  }

  public String instrument() {
    return instrument;
  }

  /** What failed, without instrument, port, exchange and remedy. */
  public String detail() {
    return detail;
  }
}
