package org.benchstroke.core.clock;

import java.time.Instant;

/**
 * One time for a run and for the simulator that serves it over real links in the same process. It
 * goes on as the wall does, so that links take the time they take, but a wait of the run is a leap:
 * the time is there at once, for both. Whoever serves follows, and waits until the time has come. A
 * machine that is held up thus delays no more than an exchange. Any thread.
 */
public final class LeapingClock implements BenchClock {
  private static final long NANOS_PER_MILLI = 1_000_000L;

  private final SystemClock wall = SystemClock.realTime();
  private final Runnable beforeWait;
  private long leaptNanos;

  public LeapingClock() {
    this(() -> {});
  }

  /**
   * A clock by whose waits something else is done in time.
   *
   * @param beforeWait done by the thread of the run before each of its waits
   */
  public LeapingClock(Runnable beforeWait) {
    this.beforeWait = beforeWait;
  }

  @Override
  public synchronized long nanos() {
    return wall.nanos() + leaptNanos;
  }

  @Override
  public synchronized Instant utc() {
    return wall.utc().plusNanos(leaptNanos);
  }

  @Override
  public void waitUntil(long nanos) throws InterruptedException {
    beforeWait.run();
    if (Thread.interrupted()) {
      throw new InterruptedException("waiting was interrupted");
    }
    synchronized (this) {
      leaptNanos += Math.max(0, nanos - nanos());
      notifyAll();
    }
  }

  /** A wire is no faster than it is. */
  @Override
  public void waitExactlyUntil(long nanos) throws InterruptedException {
    wall.waitExactlyUntil(wall.nanos() + nanos - nanos());
  }

  @Override
  public void waitInWall(long wallNanos) throws InterruptedException {
    beforeWait.run();
    wall.waitInWall(wallNanos);
  }

  /** The same time for whoever serves. */
  public BenchClock followed() {
    return new Follower();
  }

  private final class Follower implements BenchClock {
    @Override
    public long nanos() {
      return LeapingClock.this.nanos();
    }

    @Override
    public Instant utc() {
      return LeapingClock.this.utc();
    }

    @Override
    public void waitUntil(long nanos) throws InterruptedException {
      synchronized (LeapingClock.this) {
        for (long left = nanos - nanos(); left > 0; left = nanos - nanos()) {
          LeapingClock.this.wait(left / NANOS_PER_MILLI, (int) (left % NANOS_PER_MILLI));
        }
      }
    }
  }
}
