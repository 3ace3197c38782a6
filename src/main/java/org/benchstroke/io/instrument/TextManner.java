package org.benchstroke.io.instrument;

/**
 * How lines of text go to and from an instrument.
 *
 * @param sendEnd what ends a message to it
 * @param replyEnd what ends its lines; with a line feed alone, a carriage return before it is taken
 *     off too
 * @param pauseNanos the least time between the end of one exchange and the next message, ns of wall
 *     time
 */
public record TextManner(String sendEnd, String replyEnd, long pauseNanos) {
  /** Line feeds both ways, no pause. */
  public static final TextManner LINE_FEED = new TextManner("\n", "\n", 0L);

  public TextManner {
    if (sendEnd.isEmpty() || replyEnd.isEmpty() || pauseNanos < 0) {
      throw new IllegalArgumentException(
          "both ends have a character at least, and no pause is < 0");
    }
  }
}
