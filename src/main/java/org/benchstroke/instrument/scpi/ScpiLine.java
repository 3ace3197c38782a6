package org.benchstroke.instrument.scpi;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.InstrumentException.Kind;
import org.benchstroke.transport.ByteLink;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.LinkException;
import org.benchstroke.transport.LinkOpener;

/**
 * One connection to an instrument that speaks SCPI, shared by every role behind the same endpoint.
 *
 * <p>A message goes out with a line feed; a reply is exactly one line, ended by LF or CR LF, of
 * printable ASCII. SCPI has no way to pair a reply with its question, so that after anything but a
 * sound reply the connection is closed; at the next exchange it is opened again, drained until it
 * is quiet (a converter on the way may still hold a late reply) and told {@code *CLS}.
 *
 * <p>Source: IEEE 488.2-1992 and SCPI-1999, syntax from memory. One thread owns it.
 */
public final class ScpiLine {
  /** Far more than the 255 characters of the longest error text. */
  static final int LONGEST_REPLY = 1024;

  /** Silence for this long after opening: a greeting or a late reply has then come (own choice). */
  private static final long QUIET_NANOS = 50_000_000L;

  private static final String CLEAR = "*CLS";

  private final LinkOpener links;
  private final Endpoint endpoint;
  private final BenchClock clock;
  private Optional<ByteLink> link = Optional.empty();

  /** Opens nothing yet. */
  public ScpiLine(LinkOpener links, Endpoint endpoint, BenchClock clock) {
    this.links = links;
    this.endpoint = endpoint;
    this.clock = clock;
  }

  /**
   * Opens the connection if it is not open, and clears the instrument's status and errors.
   *
   * @param instrument on whose behalf, for the message of a failure
   */
  public void open(String instrument, Deadline deadline) throws InstrumentException {
    if (link.isPresent()) {
      return;
    }
    try {
      ByteLink opened = links.open(endpoint, deadline);
      link = Optional.of(opened);
      opened.drain(QUIET_NANOS, deadline);
      opened.send(message(CLEAR), deadline);
    } catch (LinkException e) {
      close();
      throw InstrumentException.of(e, instrument, endpoint.text(), "opening the connection");
    }
  }

  /** Closes the connection; may be repeated. The next exchange opens it again. */
  public void close() {
    link.ifPresent(ByteLink::close);
    link = Optional.empty();
  }

  /**
   * Sends a command, to which there is no reply.
   *
   * @return bench time when it was sent
   */
  long tell(String instrument, String command, Deadline deadline) throws InstrumentException {
    open(instrument, deadline);
    Exchange exchange = new Exchange(instrument, command);
    boolean sound = false;
    try {
      long sent = exchange.send(link.orElseThrow(), deadline);
      sound = true;
      return sent;
    } finally {
      if (!sound) {
        close();
      }
    }
  }

  /** Sends a question and waits for its one line. */
  ScpiReply ask(String instrument, String question, Deadline deadline) throws InstrumentException {
    open(instrument, deadline);
    Exchange exchange = new Exchange(instrument, question);
    boolean sound = false;
    try {
      long asked = exchange.send(link.orElseThrow(), deadline);
      String line = exchange.receive(link.orElseThrow(), deadline);
      sound = true;
      return new ScpiReply(line, asked, clock.nanos());
    } finally {
      if (!sound) {
        close();
      }
    }
  }

  /** A line that is sound as such, but says what can't be: it ends the trust in the connection. */
  InstrumentException badReply(String instrument, String exchange, String detail) {
    close();
    return failure(Kind.BAD_REPLY, instrument, exchange, detail);
  }

  InstrumentException refused(String instrument, String exchange, String detail) {
    return failure(Kind.REFUSED, instrument, exchange, detail);
  }

  private InstrumentException failure(
      Kind kind, String instrument, String exchange, String detail) {
    return new InstrumentException(kind, instrument, endpoint.text(), exchange, detail);
  }

  /** A command whose reply nobody would wait for must not go out. */
  private static void requireTime(Deadline deadline) throws LinkException {
    if (deadline.passed()) {
      throw new LinkException(LinkException.Kind.NO_REPLY, "no time was left to send this");
    }
  }

  private static byte[] message(String text) {
    return (text + "\n").getBytes(StandardCharsets.US_ASCII);
  }

  /** One message on its way; knows what has come so far, so that each failure can tell. */
  private final class Exchange {
    private final String instrument;
    private final String message;
    private final byte[] came = new byte[LONGEST_REPLY];
    private int count;

    Exchange(String instrument, String message) {
      this.instrument = instrument;
      this.message = message;
    }

    /** Nothing may be waiting when a message goes out: it would pass for the reply to this one. */
    long send(ByteLink open, Deadline deadline) throws InstrumentException {
      try {
        requireTime(deadline);
        int stale = open.drain(0, deadline);
        if (stale > 0) {
          throw bad(
              stale
                  + " bytes that nobody had asked for were waiting, maybe a late reply;"
                  + " this message was not sent");
        }
        long sent = clock.nanos();
        open.send(message(message), deadline);
        return sent;
      } catch (LinkException e) {
        throw InstrumentException.of(e, instrument, endpoint.text(), message + " -> not sent");
      }
    }

    String receive(ByteLink open, Deadline deadline) throws InstrumentException {
      try {
        int end = lineEnd();
        while (end < 0) {
          if (count == came.length) {
            throw bad("the reply is longer than " + LONGEST_REPLY + " characters");
          }
          count += open.receive(came, count, came.length - count, deadline);
          end = lineEnd();
        }
        return line(end);
      } catch (LinkException e) {
        String part = count == 0 ? "" : "; a part of a line came, but not its end";
        LinkException told = new LinkException(e.kind(), e.getMessage() + part, e);
        throw InstrumentException.of(told, instrument, endpoint.text(), text());
      }
    }

    private String line(int end) throws InstrumentException {
      if (end + 1 < count) {
        throw bad("more than one line came");
      }
      int length = end > 0 && came[end - 1] == '\r' ? end - 1 : end;
      for (int i = 0; i < length; i++) {
        if ((came[i] < ' ' && came[i] != '\t') || came[i] == 0x7F) {
          throw bad("the reply holds bytes that are no printable ASCII");
        }
      }
      String line = new String(came, 0, length, StandardCharsets.US_ASCII).strip();
      if (line.isEmpty()) {
        throw bad("the reply is an empty line");
      }
      return line;
    }

    private int lineEnd() {
      for (int i = 0; i < count; i++) {
        if (came[i] == '\n') {
          return i;
        }
      }
      return -1;
    }

    private InstrumentException bad(String detail) {
      return failure(Kind.BAD_REPLY, instrument, text(), detail);
    }

    private String text() {
      return message + " -> " + (count == 0 ? "nothing" : ScpiText.visible(came, count));
    }
  }
}
