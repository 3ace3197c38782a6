package org.benchstroke.web.access;

import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.atomic.AtomicLong;
import org.benchstroke.core.clock.BenchClock;

/** A clock that a test puts forward while a server's threads look at it. Any thread. */
public final class HandClock implements BenchClock {
  private final AtomicLong nanos = new AtomicLong();

  public void forward(Duration by) {
    nanos.addAndGet(by.toNanos());
  }

  @Override
  public long nanos() {
    return nanos.get();
  }

  @Override
  public Instant utc() {
    return Instant.parse("2026-03-02T08:00:00Z").plusNanos(nanos());
  }

  @Override
  public void waitUntil(long until) {
    nanos.accumulateAndGet(until, Math::max);
  }
}
