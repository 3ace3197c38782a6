package org.benchstroke.core.clock;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongConsumer;

/**
 * A clock that moves only when told to: waiting is instantaneous, and whoever follows the clock (a
 * simulated unit) is stepped on the same thread before the wait returns. One thread only.
 */
public final class VirtualClock implements BenchClock {
  private final Instant start;
  private final List<LongConsumer> followers = new ArrayList<>();
  private long nanos;

  /** Starts at zero nanoseconds, labelled with the given instant. */
  public VirtualClock(Instant start) {
    this.start = start;
  }

  /** Has the follower told each new time, in the order of following. */
  public void follow(LongConsumer follower) {
    followers.add(follower);
  }

  @Override
  public long nanos() {
    return nanos;
  }

  @Override
  public Instant utc() {
    return start.plusNanos(nanos);
  }

  @Override
  public void waitUntil(long until) {
    if (until > nanos) {
      nanos = until;
      for (LongConsumer follower : followers) {
        follower.accept(nanos);
      }
    }
  }
}
