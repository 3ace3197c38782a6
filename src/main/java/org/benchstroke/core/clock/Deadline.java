package org.benchstroke.core.clock;

/**
 * The instant by which something must have happened, on a given clock. Immutable; any thread that
 * may use the clock.
 *
 * @param clock the clock it is measured on
 * @param atNanos the instant, in that clock's nanoseconds
 */
public record Deadline(BenchClock clock, long atNanos) {
  public static Deadline in(BenchClock clock, long nanos) {
    return new Deadline(clock, clock.nanos() + nanos);
  }

  /**
   * A deadline for a link: the time-out of an instrument is a wall time, also where a simulated
   * bench runs faster.
   */
  public static Deadline inWall(BenchClock clock, long wallNanos) {
    return in(clock, (long) (wallNanos * clock.scale()));
  }

  /** Nanoseconds of wall time left; zero or less once it has passed. */
  public long remainingWallNanos() {
    return (long) (remainingNanos() / clock.scale());
  }

  /** Nanoseconds left; zero or less once it has passed. */
  public long remainingNanos() {
    return atNanos - clock.nanos();
  }

  public boolean passed() {
    return remainingNanos() <= 0;
  }
}
