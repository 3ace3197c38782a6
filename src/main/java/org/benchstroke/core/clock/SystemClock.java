package org.benchstroke.core.clock;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.concurrent.locks.LockSupport;

/**
 * The machine's own clocks. With a scale above 1 the bench's time runs that much faster than the
 * wall: only for a simulated bench served at the same multiple. Safe for any thread.
 */
public final class SystemClock implements BenchClock {
  /** A sleep ends some 60 µs late on an idle machine; twice that. */
  private static final double WAKE_UP_NANOS = 120_000.0;

  private final double scale;
  private final long origin = System.nanoTime();

  private SystemClock(double scale) {
    this.scale = scale;
  }

  public static SystemClock realTime() {
    return new SystemClock(1.0);
  }

  /**
   * A clock for a simulated bench.
   *
   * @param scale bench seconds per wall second, 0.1 to 1000
   */
  public static SystemClock scaled(double scale) {
    if (!(scale >= 0.1 && scale <= 1000.0)) {
      throw new IllegalArgumentException("a time scale is 0.1 to 1000, not " + scale);
    }
    return new SystemClock(scale);
  }

  @Override
  public long nanos() {
    return (long) ((System.nanoTime() - origin) * scale);
  }

  @Override
  public Instant utc() {
    return Instant.now();
  }

  @Override
  public ZoneOffset offset() {
    return ZoneId.systemDefault().getRules().getOffset(utc());
  }

  @Override
  public void waitUntil(long nanos) throws InterruptedException {
    for (long left = nanos - nanos(); left > 0; left = nanos - nanos()) {
      if (Thread.interrupted()) {
        throw new InterruptedException("waiting was interrupted");
      }
      LockSupport.parkNanos(Math.max(1L, (long) (left / scale)));
    }
  }

  /**
   * Waits as {@link #waitUntil} does, but is not late by what a sleep takes to wake up: the last
   * part of the wait keeps the processor busy, and lets others have it.
   */
  @Override
  @SuppressWarnings("ThreadPriorityCheck")
  public void waitExactlyUntil(long nanos) throws InterruptedException {
    waitUntil(nanos - (long) (WAKE_UP_NANOS * scale));
    while (nanos() < nanos) {
      Thread.yield();
    }
  }

  @Override
  public double scale() {
    return scale;
  }
}
