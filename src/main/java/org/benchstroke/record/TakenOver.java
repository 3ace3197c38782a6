package org.benchstroke.record;

import java.time.Duration;
import java.util.List;
import org.benchstroke.core.clock.BenchClock;

/** Where a record's times go on after lines that it took over. Stateless. */
final class TakenOver {
  /** Whatever the wall clocks say, nothing of this run is as early as what it took over. */
  private static final long LEAST_NANOS = 1_000_000_000L;

  private TakenOver() {}

  /** The bench time from which times count, so that those from now on follow the last line's. */
  static long origin(List<Entry> earlier, BenchClock clock) {
    Entry last = earlier.get(earlier.size() - 1);
    long since = Duration.between(last.utc(), clock.utc()).toNanos();
    return clock.nanos() - last.nanos() - Math.max(LEAST_NANOS, since);
  }
}
