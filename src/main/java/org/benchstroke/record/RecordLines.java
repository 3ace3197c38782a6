package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Optional;

/**
 * The lines of a record: {@code
 * {"n":1,"kind":"opened","ns":0,"utc":"…","step":"…","body":{…},"check":"…"}}, written or read one
 * after the other. One thread.
 */
final class RecordLines {
  private static final String CHECK = ",\"check\":\"";

  private final Chain chain = new Chain();
  private final UtcStamps stamps = new UtcStamps();
  private String previous = Chain.START;
  private long number;

  /** The next line for an event, without its line end. */
  String write(long nanos, Instant utc, Optional<StepId> step, Event event) {
    String line = beginning(number + 1, nanos, utc, step, event);
    number++;
    previous = chain.next(previous, line);
    return line + CHECK + previous + "\"}";
  }

  /** A line up to its check value. */
  static String beginning(
      long number, long nanos, Instant utc, Optional<StepId> step, Event event) {
    return "{\"n\":"
        + number
        + ",\"kind\":\""
        + EventJson.kind(event)
        + "\",\"ns\":"
        + nanos
        + ",\"utc\":\""
        + utc
        + step.map(id -> "\",\"step\":\"" + id.text()).orElse("")
        + "\",\"body\":"
        + EventJson.body(event);
  }

  /** How many lines have been written or read. */
  long number() {
    return number;
  }

  /** The check value of the last of them. */
  String lastCheck() {
    return previous;
  }

  /**
   * Reads the next line.
   *
   * @throws BadLine if it is not the line that must come next, whole and unchanged
   */
  Entry read(String line) throws BadLine {
    int at = line.lastIndexOf(CHECK);
    if (at < 0 || !line.endsWith("\"}") || at + CHECK.length() > line.length() - 2) {
      throw new BadLine("it is not whole");
    }
    String found = line.substring(at + CHECK.length(), line.length() - 2);
    String expected = chain.next(previous, line.substring(0, at));
    if (!found.equals(expected)) {
      throw new BadLine("its check value does not follow from the lines before it");
    }
    Entry entry = entry(line);
    if (entry.number() != number + 1) {
      throw new BadLine("its number is " + entry.number() + ", not " + (number + 1));
    }
    number++;
    previous = found;
    return entry;
  }

  private Entry entry(String line) throws BadLine {
    try {
      EventJson.Line read = EventJson.line(line);
      return new Entry(
          read.number(), read.nanos(), stamps.read(read.utc()), read.step(), read.event());
    } catch (EventJson.OtherFormat e) {
      throw new OtherFormat(e.getMessage());
    } catch (JsonProcessingException e) {
      throw new BadLine("its content does not fit: " + e.getOriginalMessage());
    } catch (IllegalArgumentException | DateTimeException e) {
      throw new BadLine(e.getMessage());
    }
  }

  /** The first line of a record of another format. */
  static final class OtherFormat extends BadLine {
    private static final long serialVersionUID = 1L;

    OtherFormat(String message) {
      super(message);
    }
  }

  /** A line that can't be taken. */
  static class BadLine extends Exception {
    private static final long serialVersionUID = 1L;

    BadLine(String message) {
      super(message);
    }
  }
}
