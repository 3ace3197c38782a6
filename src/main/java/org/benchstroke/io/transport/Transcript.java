package org.benchstroke.io.transport;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.clock.Deadline;

/**
 * A link that plays one side of a written exchange, in virtual time. The form of the files stands
 * in {@code docs/reference/transcripts.md}. One thread.
 */
public final class Transcript implements LinkOpener {
  private static final Pattern STEP =
      Pattern.compile("(open|sent|came|silence|gone|closed)(?: \\+(\\d+)ms)?(?: (.+))?");

  private enum Kind {
    OPEN,
    SENT,
    CAME,
    SILENCE,
    GONE,
    CLOSED
  }

  /** One line; {@code left} shrinks as its bytes are sent or handed over. */
  private static final class Step {
    final int number;
    final Kind kind;
    final long delayNanos;
    final String text;
    final int length;
    byte[] left;

    Step(int number, Kind kind, long delayNanos, String text, byte[] left) {
      this.number = number;
      this.kind = kind;
      this.delayNanos = delayNanos;
      this.text = text;
      this.length = left.length;
      this.left = left;
    }

    boolean begun() {
      return left.length < length;
    }

    @Override
    public String toString() {
      return text;
    }
  }

  private final String name;
  private final int chunk;
  private final List<Step> steps = new ArrayList<>();
  private int next;
  private Optional<Departure> first = Optional.empty();

  /** When the step before was over: delays count from here. */
  private long sinceNanos;

  private Transcript(String name, int chunk) {
    this.name = name;
    this.chunk = chunk;
  }

  /**
   * Takes the text of a transcript.
   *
   * @param name that messages give
   * @param chunk the most bytes that one call of receive gets
   * @throws Departure if a line is no step of a transcript
   */
  public static Transcript parse(String name, String text, int chunk) {
    Transcript transcript = new Transcript(name, chunk);
    int number = 0;
    for (String line : text.lines().map(String::strip).toList()) {
      number++;
      if (!line.isEmpty() && !line.startsWith("#")) {
        transcript.steps.add(step(line, number));
      }
    }
    return transcript;
  }

  /** What is done is not what is written, or what is written is no transcript. */
  public static final class Departure extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final int line;

    Departure(int line, String message) {
      super(message);
      this.line = line;
    }

    /** The line of the transcript, from 1; 0 at its end. */
    public int line() {
      return line;
    }
  }

  /** Whether all has come to pass, but that the link may still be closed. */
  public boolean spent() {
    return next >= steps.size() || (next == steps.size() - 1 && is(Kind.CLOSED));
  }

  /**
   * Insists that no line of the transcript is left.
   *
   * @throws Departure at the first that is
   */
  public void requireUsedUp() {
    if (next < steps.size()) {
      throw departure("never came to pass");
    }
  }

  /** The first: what a driver does after it, closing the link for one, is no news. */
  private Departure departure(String what) {
    if (first.isEmpty()) {
      int line = next < steps.size() ? steps.get(next).number : 0;
      first = Optional.of(new Departure(line, at() + ": " + what));
    }
    return first.get();
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    sinceNanos = deadline.clock().nanos();
    if (is(Kind.GONE)) {
      take();
      throw new LinkException(LinkException.Kind.PORT_GONE, "cannot connect to " + endpoint.text());
    }
    require(Kind.OPEN, "opened the link");
    take();
    return new Link(endpoint);
  }

  private boolean is(Kind kind) {
    return next < steps.size() && steps.get(next).kind == kind;
  }

  private void require(Kind kind, String did) {
    if (!is(kind)) {
      throw departure("instead, the driver " + did);
    }
  }

  private String at() {
    String step = next < steps.size() ? steps.get(next).toString() : "the end";
    return name + ", step " + (next + 1) + " (" + step + ")";
  }

  private void take() {
    next++;
  }

  private final class Link implements ByteLink {
    private final Endpoint endpoint;
    private boolean open = true;

    Link(Endpoint endpoint) {
      this.endpoint = endpoint;
    }

    @Override
    public Endpoint endpoint() {
      return endpoint;
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      breakIfGone();
      for (byte b : bytes) {
        require(Kind.SENT, "sent " + TranscriptWriter.text(bytes, 0, bytes.length));
        Step step = steps.get(next);
        if (step.left[0] != b) {
          throw departure(
              "instead, the driver sent " + TranscriptWriter.text(bytes, 0, bytes.length));
        }
        dropFirst(step, 1);
      }
      sinceNanos = deadline.clock().nanos();
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      breakIfGone();
      if (is(Kind.SILENCE)) {
        take();
        throw silent(deadline);
      }
      require(Kind.CAME, "waited for bytes");
      if (arrivesAtNanos() > deadline.atNanos()) {
        throw silent(deadline);
      }
      waitUntil(arrivesAtNanos(), deadline);
      Step step = steps.get(next);
      int count = Math.min(Math.min(chunk, length), step.left.length);
      System.arraycopy(step.left, 0, buffer, offset, count);
      dropFirst(step, count);
      return count;
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) {
      int thrown = 0;
      long now = deadline.clock().nanos();
      while (is(Kind.CAME) && arrivesAtNanos() <= now + quietNanos) {
        waitUntil(arrivesAtNanos(), deadline);
        Step step = steps.get(next);
        thrown += step.left.length;
        dropFirst(step, step.left.length);
        now = deadline.clock().nanos();
      }
      waitUntil(now + quietNanos, deadline);
      return thrown;
    }

    @Override
    public void close() {
      if (open) {
        open = false;
        if (is(Kind.CAME) && steps.get(next).begun()) {
          take();
        }
        require(Kind.CLOSED, "closed the link");
        take();
      }
    }

    private void breakIfGone() throws LinkException {
      if (is(Kind.GONE)) {
        take();
        throw new LinkException(
            LinkException.Kind.PORT_GONE, "the link to " + endpoint.text() + " is gone");
      }
    }

    private LinkException silent(Deadline deadline) {
      waitUntil(deadline.atNanos(), deadline);
      return new LinkException(
          LinkException.Kind.NO_REPLY, "nothing came from " + endpoint.text() + " in time");
    }

    private long arrivesAtNanos() {
      return sinceNanos + steps.get(next).delayNanos;
    }

    private void dropFirst(Step step, int count) {
      byte[] rest = new byte[step.left.length - count];
      System.arraycopy(step.left, count, rest, 0, rest.length);
      step.left = rest;
      if (rest.length == 0) {
        sinceNanos += step.delayNanos;
        take();
      }
    }

    private void waitUntil(long nanos, Deadline deadline) {
      try {
        deadline.clock().waitUntil(nanos);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException("virtual time does not wait", e);
      }
    }
  }

  private static Step step(String line, int number) {
    Matcher form = STEP.matcher(line);
    if (!form.matches()) {
      throw new Departure(number, "no step of a transcript: " + line);
    }
    Kind kind = Kind.valueOf(form.group(1).toUpperCase(Locale.ROOT));
    boolean bytes = kind == Kind.SENT || kind == Kind.CAME;
    if (bytes != (form.group(3) != null)) {
      throw new Departure(number, "bytes missing, or not wanted: " + line);
    }
    long delay = form.group(2) == null ? 0 : Long.parseLong(form.group(2)) * 1_000_000L;
    try {
      return new Step(number, kind, delay, line, bytes ? bytes(form.group(3)) : new byte[0]);
    } catch (IllegalArgumentException | IndexOutOfBoundsException e) {
      throw new Departure(number, "no bytes of a transcript: " + line);
    }
  }

  private static byte[] bytes(String form) {
    return form.startsWith("\"")
        ? quoted(form.substring(1, form.length() - 1))
        : HexFormat.ofDelimiter(" ").parseHex(form);
  }

  private static byte[] quoted(String text) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    int i = 0;
    while (i < text.length()) {
      boolean escaped = text.charAt(i) == '\\';
      char c = text.charAt(escaped ? i + 1 : i);
      boolean hex = escaped && c == 'x';
      out.write(hex ? HexFormat.fromHexDigits(text, i + 2, i + 4) : escaped ? control(c) : c);
      i += hex ? 4 : escaped ? 2 : 1;
    }
    return out.toByteArray();
  }

  private static char control(char c) {
    return switch (c) {
      case 'n' -> '\n';
      case 'r' -> '\r';
      default -> c;
    };
  }
}
