package org.benchstroke.simulator;

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

  /** Whether the instrument has hung up; whatever it is fed after that is thrown away. */
  boolean closed();
}
