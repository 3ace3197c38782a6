package org.benchstroke.clock;

import java.time.Instant;

/**
 * The bench's time. Every elapsed time comes from {@link #nanos()}, which is monotonic; {@link
 * #utc()} only labels. All methods may be called from any thread.
 */
public interface BenchClock {
  /** Monotonic nanoseconds since an arbitrary start. */
  long nanos();

  /** The wall clock, for labels only. */
  Instant utc();

  /**
   * Waits until {@link #nanos()} has reached the instant; returns at once if it has passed.
   *
   * @throws InterruptedException if the waiting thread is interrupted
   */
  void waitUntil(long nanos) throws InterruptedException;

  /** How much faster than the wall this clock runs: 1 on a real bench. */
  default double scale() {
    return 1.0;
  }
}
