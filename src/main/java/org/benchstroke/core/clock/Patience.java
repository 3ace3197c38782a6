package org.benchstroke.core.clock;

import java.util.concurrent.locks.LockSupport;

/**
 * Waiting for something that can only be asked for again and again, in wall time. At first it asks
 * at once, then it sleeps a share of the time that it has waited: an answer is noticed 6 % late or
 * 0.5 ms, whichever is less, and a long wait costs little of the processor.
 *
 * <p>An interrupt neither ends the wait nor makes it busy; it is passed on by {@link #end()}. One
 * thread.
 */
public final class Patience {
  /** So long a reply at 115200 baud has gaps; waking up from a sleep alone takes a third of it. */
  private static final long EAGER_NANOS = 200_000L;

  private static final long SHORTEST_NANOS = 30_000L;
  private static final long LONGEST_NANOS = 500_000L;

  /** What is slept, of what has been waited. */
  private static final int SHARE = 16;

  private long began;
  private boolean interrupted;

  /** Begins to wait. */
  public void begin() {
    began = System.nanoTime();
  }

  /**
   * Waits a little, but no longer than the given nanoseconds of wall time.
   *
   * <p>Nothing relies on the yield: it only lets others have the processor while this asks.
   */
  @SuppressWarnings("ThreadPriorityCheck")
  public void pause(long mostWallNanos) {
    long waited = System.nanoTime() - began;
    if (waited < EAGER_NANOS) {
      Thread.yield();
      return;
    }
    // A thread that is marked as interrupted does not sleep at all.
    interrupted |= Thread.interrupted();
    long sleep = Math.max(SHORTEST_NANOS, Math.min(waited / SHARE, LONGEST_NANOS));
    LockSupport.parkNanos(this, Math.max(1L, Math.min(sleep, mostWallNanos)));
  }

  /** Ends the wait; to be called also where it failed. */
  public void end() {
    if (interrupted) {
      interrupted = false;
      Thread.currentThread().interrupt();
    }
  }
}
