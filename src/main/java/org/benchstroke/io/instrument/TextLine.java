package org.benchstroke.io.instrument;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;

/**
 * One connection over which lines of text go, shared by every instrument behind the same endpoint.
 *
 * <p>A reply is exactly one line of printable ASCII. Nothing in a text pairs a reply with its
 * question, so that after anything but a sound reply the connection is closed; the next exchange
 * opens it again and drains it until it is quiet (a converter on the way may still hold a late
 * reply). One thread owns it.
 */
public final class TextLine {
  /** Far more than the 255 characters of SCPI's longest error text. */
  public static final int LONGEST_REPLY = 1024;

  /** Silence for this long after opening: a greeting or a late reply has then come (own choice). */
  private static final long QUIET_NANOS = 50_000_000L;

  private final LinkOpener links;
  private final Endpoint endpoint;
  private final BenchClock clock;

  /** What has come of the reply to the exchange that is under way. */
  private final byte[] came = new byte[LONGEST_REPLY];

  private Optional<ByteLink> link = Optional.empty();
  private int opened;
  private long idleSinceNanos;

  /** Opens nothing yet. */
  public TextLine(LinkOpener links, Endpoint endpoint, BenchClock clock) {
    this.links = links;
    this.endpoint = endpoint;
    this.clock = clock;
  }

  /**
   * Opens the connection if it is not open.
   *
   * @param instrument on whose behalf, for the message of a failure
   * @return how often it has been opened: whoever must say something first knows by it when
   */
  public int open(String instrument, Deadline deadline) throws InstrumentException {
    if (link.isPresent()) {
      return opened;
    }
    try {
      ByteLink fresh = links.open(endpoint, deadline);
      link = Optional.of(fresh);
      fresh.drain(QUIET_NANOS, deadline);
      opened++;
      return opened;
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
  public long tell(String instrument, TextManner manner, String command, Deadline deadline)
      throws InstrumentException {
    open(instrument, deadline);
    return soundly(
        () -> new Exchange(instrument, manner, command).send(link.orElseThrow(), deadline));
  }

  /** Sends a question and waits for its one line. */
  public TextReply ask(String instrument, TextManner manner, String question, Deadline deadline)
      throws InstrumentException {
    open(instrument, deadline);
    return soundly(
        () -> {
          Exchange exchange = new Exchange(instrument, manner, question);
          long asked = exchange.send(link.orElseThrow(), deadline);
          String line = exchange.receive(link.orElseThrow(), deadline);
          return new TextReply(line, asked, clock.nanos());
        });
  }

  /**
   * Listens during the instrument's pause after a command that wants no reply: what comes then can
   * only be its complaint.
   *
   * @return the line, if one began in that time
   */
  public Optional<TextReply> listen(
      String instrument, TextManner manner, String command, long sentNanos, Deadline deadline)
      throws InstrumentException {
    long until = idleSinceNanos + pause(manner);
    if (link.isEmpty() || until <= clock.nanos()) {
      return Optional.empty();
    }
    Deadline end = new Deadline(clock, Math.min(until, deadline.atNanos()));
    Exchange exchange = new Exchange(instrument, manner, command);
    return soundly(
        () ->
            exchange.begins(link.orElseThrow(), end)
                ? Optional.of(
                    new TextReply(
                        exchange.receive(link.orElseThrow(), deadline), sentNanos, clock.nanos()))
                : Optional.empty());
  }

  /** A line that is sound as such, but says what can't be: it ends the trust in the connection. */
  public InstrumentException badReply(String instrument, String exchange, String detail) {
    close();
    return failure(Kind.BAD_REPLY, instrument, exchange, detail);
  }

  /** The instrument said no, or would have to: the connection stays. */
  public InstrumentException refused(String instrument, String exchange, String detail) {
    return failure(Kind.REFUSED, instrument, exchange, detail);
  }

  private InstrumentException failure(
      Kind kind, String instrument, String exchange, String detail) {
    return new InstrumentException(kind, instrument, endpoint.text(), exchange, detail);
  }

  private interface Step<T> {
    T take() throws InstrumentException;
  }

  private <T> T soundly(Step<T> step) throws InstrumentException {
    boolean sound = false;
    try {
      T result = step.take();
      sound = true;
      return result;
    } finally {
      idleSinceNanos = clock.nanos();
      if (!sound) {
        close();
      }
    }
  }

  private long pause(TextManner manner) {
    return (long) (manner.pauseNanos() * clock.scale());
  }

  /** One message on its way; knows what has come so far, so that each failure can tell. */
  private final class Exchange {
    private final String instrument;
    private final TextManner manner;
    private final String message;
    private int count;

    Exchange(String instrument, TextManner manner, String message) {
      this.instrument = instrument;
      this.manner = manner;
      this.message = message;
    }

    /** Nothing may be waiting when a message goes out: it would pass for the reply to this one. */
    long send(ByteLink open, Deadline deadline) throws InstrumentException {
      try {
        waitForPause(deadline);
        int stale = open.drain(0, deadline);
        if (stale > 0) {
          throw bad(
              "late reply: "
                  + stale
                  + " bytes that were not asked for were waiting; this message was not sent");
        }
        long sent = clock.nanos();
        byte[] bytes = (message + manner.sendEnd()).getBytes(StandardCharsets.ISO_8859_1);
        open.send(bytes, deadline);
        return sent;
      } catch (LinkException e) {
        throw InstrumentException.of(
            e, instrument, endpoint.text(), VisibleText.of(message) + " -> not sent");
      }
    }

    /** A command whose reply nobody would wait for must not go out. */
    private void waitForPause(Deadline deadline) throws LinkException {
      long from = idleSinceNanos + pause(manner);
      boolean inTime = !deadline.passed() && from < deadline.atNanos();
      try {
        if (inTime && manner.pauseNanos() > 0) {
          clock.waitUntil(from);
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        inTime = false;
      }
      if (!inTime) {
        throw new LinkException(LinkException.Kind.NO_REPLY, "no time was left to send this");
      }
    }

    /** Whether anything comes before the instant; silence is what is hoped for. */
    boolean begins(ByteLink open, Deadline end) throws InstrumentException {
      try {
        count += open.receive(came, 0, came.length, end);
        return true;
      } catch (LinkException e) {
        if (e.kind() == LinkException.Kind.NO_REPLY) {
          return false;
        }
        throw InstrumentException.of(e, instrument, endpoint.text(), text());
      }
    }

    String receive(ByteLink open, Deadline deadline) throws InstrumentException {
      try {
        int end = lineEnd();
        requirePrintable(end < 0 ? count : end);
        while (end < 0) {
          if (count == came.length) {
            throw bad("the reply is longer than " + LONGEST_REPLY + " characters");
          }
          count += open.receive(came, count, came.length - count, deadline);
          end = lineEnd();
          requirePrintable(end < 0 ? count : end);
        }
        return line(end);
      } catch (LinkException e) {
        boolean cut = count > 0 && e.kind() == LinkException.Kind.NO_REPLY;
        String part = count == 0 ? "" : "cut reply: part of a line came, without its end";
        String more = count == 0 ? "" : "; " + part;
        // "Nothing came" is no longer true then.
        LinkException told = new LinkException(e.kind(), cut ? part : e.getMessage() + more, e);
        throw InstrumentException.of(told, instrument, endpoint.text(), text());
      }
    }

    /** Noise is told at once: its end of line may never come. */
    private void requirePrintable(int length) throws InstrumentException {
      String controls = manner.replyEnd().equals("\n") ? "\r\n\t" : manner.replyEnd() + "\t";
      for (int i = 0; i < length; i++) {
        boolean printable = came[i] >= ' ' && came[i] < 0x7F;
        if (!printable && controls.indexOf(came[i]) < 0) {
          throw bad("garbage: the reply holds bytes that are not printable ASCII");
        }
      }
    }

    private String line(int end) throws InstrumentException {
      if (end + manner.replyEnd().length() < count) {
        throw bad("garbage after the reply, or a late one: more than one line came");
      }
      boolean both = manner.replyEnd().equals("\n") && end > 0 && came[end - 1] == '\r';
      int length = both ? end - 1 : end;
      String line = new String(came, 0, length, StandardCharsets.US_ASCII).strip();
      if (line.isEmpty()) {
        throw bad("the reply is an empty line");
      }
      return line;
    }

    private int lineEnd() {
      String seen = new String(came, 0, count, StandardCharsets.ISO_8859_1);
      return seen.indexOf(manner.replyEnd());
    }

    private InstrumentException bad(String detail) {
      return failure(Kind.BAD_REPLY, instrument, text(), detail);
    }

    private String text() {
      return VisibleText.of(message)
          + " -> "
          + (count == 0 ? "nothing" : VisibleText.of(came, count));
    }
  }
}
