package org.benchstroke.simulator;

import java.util.Arrays;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.SerialSettings;

/**
 * The instruments' end of a serial line whose port is faster than a wire, as a pseudo-terminal is:
 * each byte takes here the time that it would take there. What has come is heard only once its last
 * byte would have arrived; an answer begins after the silence and the turn-round, and then no byte
 * of it is ever early.
 *
 * <p>A port with a wire takes the time of a request by itself: here it would be counted twice. One
 * thread.
 */
public final class PacedWire {
  /** MODBUS over Serial Line V1.02, 2.5.1.1: what ends a frame, in characters. */
  private static final double SILENT_CHARACTERS = 3.5;

  /** More than any message. */
  private static final int LONGEST = 4096;

  private static final long TO_SEND_NANOS = 1_000_000_000L;

  private final ByteLink link;
  private final SystemClock wall;
  private final long characterNanos;
  private final long beforeAnswerNanos;
  private final byte[] buffer = new byte[LONGEST];
  private long freeAt;

  /**
   * An end of a line.
   *
   * @param link its port
   * @param settings give the time of a character
   * @param beforeAnswerNanos from the last byte of a request to the beginning of the answer: the
   *     silence that ends a frame and the turn-round, ns
   * @param wall a clock at the pace of the wall
   */
  public PacedWire(
      ByteLink link, SerialSettings settings, long beforeAnswerNanos, SystemClock wall) {
    this.link = link;
    this.wall = wall;
    this.characterNanos = settings.characterNanos();
    this.beforeAnswerNanos = beforeAnswerNanos;
    this.freeAt = wall.nanos();
  }

  /** 3.5 characters of a line, ns. */
  public static long silenceNanos(SerialSettings settings) {
    return Math.round(SILENT_CHARACTERS * settings.bitsPerCharacter() * 1e9 / settings.speed());
  }

  /**
   * Waits for bytes, and then for as long as they are on the wire.
   *
   * @throws LinkException {@code NO_REPLY} if none came by the deadline
   * @throws InterruptedException if the thread is asked to end
   */
  public byte[] hear(Deadline deadline) throws LinkException, InterruptedException {
    int count = link.receive(buffer, 0, buffer.length, deadline);
    freeAt = Math.max(freeAt, wall.nanos()) + count * characterNanos;
    wall.waitExactlyUntil(freeAt);
    return Arrays.copyOf(buffer, count);
  }

  /** Answers what was heard last; an empty answer takes no time. */
  public void say(byte[] answer) throws LinkException, InterruptedException {
    if (answer.length == 0) {
      return;
    }
    long begin = freeAt + beforeAnswerNanos;
    for (int sent = 0; sent < answer.length; ) {
      wall.waitExactlyUntil(begin + (sent + 1) * characterNanos);
      // Where this thread was held up, several are due.
      long through = (wall.nanos() - begin) / characterNanos;
      int until = (int) Math.min(answer.length, through);
      link.send(Arrays.copyOfRange(answer, sent, until), Deadline.in(wall, TO_SEND_NANOS));
      sent = until;
    }
    freeAt = wall.nanos();
  }
}
