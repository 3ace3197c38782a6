package org.benchstroke.io.transport;

import org.benchstroke.core.clock.Deadline;

/**
 * A stream of bytes to one port. One thread owns a link; only {@link #close()} may be called from
 * another, and wakes it.
 */
public interface ByteLink extends AutoCloseable {
  Endpoint endpoint();

  /**
   * Sends all the bytes.
   *
   * @throws LinkException if the port is gone
   */
  void send(byte[] bytes, Deadline deadline) throws LinkException;

  /**
   * Receives at least one byte.
   *
   * @return how many bytes were put into the buffer from {@code offset}, 1..{@code length}
   * @throws LinkException {@code NO_REPLY} at the deadline, {@code PORT_GONE} if the peer vanished
   */
  int receive(byte[] buffer, int offset, int length, Deadline deadline) throws LinkException;

  /**
   * Throws away what has arrived until the line has been silent for {@code quietNanos} of wall
   * time: after a time-out a late reply must not pass for the next one.
   *
   * @return how many bytes were thrown away
   * @throws LinkException if the port is gone, or if the line is still talking at the deadline
   */
  int drain(long quietNanos, Deadline deadline) throws LinkException;

  /** Closes the port; never throws, may be repeated. */
  @Override
  void close();
}
