package org.benchstroke.core.clock;

import java.time.Instant;
import java.time.ZoneOffset;

/**
 * The bench's time. Every elapsed time comes from {@link #nanos()}, which is monotonic; {@link
 * #utc()} only labels. All methods may be called from any thread.
 */
public interface BenchClock {
  /** Monotonic nanoseconds since an arbitrary start. */
  long nanos();

  /** The wall clock, for labels only. */
  Instant utc();

  /** How far local time is ahead of {@link #utc()} now, for labels only. */
  default ZoneOffset offset() {
    return ZoneOffset.UTC;
  }

  /**
   * Waits until {@link #nanos()} has reached the instant; returns at once if it has passed.
   *
   * @throws InterruptedException if the waiting thread is interrupted
   */
  void waitUntil(long nanos) throws InterruptedException;

  /**
   * The same for the sake of a wire: not late by what it takes to wake up, at the price of a
   * fraction of a millisecond in which the processor is busy.
   *
   * @throws InterruptedException if the waiting thread is interrupted
   */
  default void waitExactlyUntil(long nanos) throws InterruptedException {
    waitUntil(nanos);
  }

  /**
   * Waits nanoseconds of wall time, for what is no faster where a simulated bench runs faster: a
   * link that is to come back.
   *
   * @throws InterruptedException if the waiting thread is interrupted
   */
  default void waitInWall(long wallNanos) throws InterruptedException {
    waitUntil(nanos() + (long) (wallNanos * scale()));
  }

  /** How much faster than the wall this clock runs while a link is used: 1 on a real bench. */
  default double scale() {
    return 1.0;
  }

  /**
   * How many times as long a reply may take where nothing but this computer can be slow: 1
   * otherwise.
   */
  default double patience() {
    return 1.0;
  }

  /** Monotonic nanoseconds of the wall since an arbitrary start. */
  default long wallNanos() {
    return (long) (nanos() / scale());
  }

  /** How much faster than the wall it runs while somebody waits for the bench. */
  default double pace() {
    return scale();
  }
}
