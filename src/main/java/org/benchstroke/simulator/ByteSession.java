package org.benchstroke.simulator;

import java.util.List;

/**
 * The instrument's side of one connection: bytes in, bytes out, however they are cut into chunks.
 * It does no I/O and never fails, whatever it is fed. One thread at a time.
 */
public interface ByteSession {
  /** Takes what has arrived and gives what is to be sent back, possibly nothing. */
  byte[] feed(byte[] chunk);

  /** How much later than usual what was given last is to be sent, ns of the bench. */
  default long delayNanos() {
    return 0;
  }

  /** The pieces in which what was given last is to be sent, one or more. */
  default List<byte[]> pieces(byte[] given) {
    return List.of(given);
  }

  /** How long it is from one piece of what was given last to the next, ns of the bench. */
  default long pauseNanos() {
    return 0;
  }

  /** Whether nothing will ever get through it again, though it is not closed. */
  default boolean deaf() {
    return false;
  }

  /** Whether the instrument has hung up; whatever it is fed after that is thrown away. */
  boolean closed();
}
