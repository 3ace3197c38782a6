package org.benchstroke.io.transport;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.clock.Deadline;

/**
 * A link that plays one side of a written exchange, in virtual time. The form of the files stands
 * in {@code docs/reference/transcripts.md}.
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
    final Kind kind;
    final long delayNanos;
    final String text;
    final int length;
    byte[] left;

    Step(Kind kind, long delayNanos, String text, byte[] left) {
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

  /** When the step before was over: delays count from here. */
  private long sinceNanos;

  private Transcript(String name, int chunk) {
    this.name = name;
    this.chunk = chunk;
  }

  /**
   * Reads {@code /transcripts/<name>.txt}.
   *
   * @param chunk the most bytes that one call of receive gets
   */
  public static Transcript read(String name, int chunk) {
    String path = "/transcripts/" + name + ".txt";
    try (InputStream in =
        Objects.requireNonNull(Transcript.class.getResourceAsStream(path), path)) {
      return parse(name, new String(in.readAllBytes(), StandardCharsets.UTF_8), chunk);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Takes the text of a transcript. */
  static Transcript parse(String name, String text, int chunk) {
    Transcript transcript = new Transcript(name, chunk);
    text.lines()
        .map(String::strip)
        .filter(line -> !line.isEmpty() && !line.startsWith("#"))
        .forEach(line -> transcript.steps.add(step(line)));
    return transcript;
  }

  /** Fails if the driver has left a line of the transcript unused. */
  public void assertUsedUp() {
    if (next < steps.size()) {
      throw new AssertionError(at() + ": never came to pass");
    }
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
      throw new AssertionError(at() + ": instead, the driver " + did);
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
        require(Kind.SENT, "sent " + HexFormat.ofDelimiter(" ").formatHex(bytes));
        Step step = steps.get(next);
        if (step.left[0] != b) {
          throw new AssertionError(
              at()
                  + ": instead, the driver sent \""
                  + new String(bytes, StandardCharsets.US_ASCII)
                  + "\" = "
                  + HexFormat.ofDelimiter(" ").formatHex(bytes));
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
        throw new AssertionError("virtual time does not wait", e);
      }
    }
  }

  private static Step step(String line) {
    Matcher form = STEP.matcher(line);
    if (!form.matches()) {
      throw new AssertionError("no step of a transcript: " + line);
    }
    Kind kind = Kind.valueOf(form.group(1).toUpperCase(Locale.ROOT));
    boolean bytes = kind == Kind.SENT || kind == Kind.CAME;
    if (bytes != (form.group(3) != null)) {
      throw new AssertionError("bytes missing, or not wanted: " + line);
    }
    long delay = form.group(2) == null ? 0 : Long.parseLong(form.group(2)) * 1_000_000L;
    return new Step(kind, delay, line, bytes ? bytes(form.group(3)) : new byte[0]);
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
