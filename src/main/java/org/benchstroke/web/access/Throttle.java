package org.benchstroke.web.access;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.BenchClock;

/**
 * Slows down whoever tries secrets: a few attempts are free, after each further one the next must
 * wait twice as long. An attempt counts before it is known to be wrong, so that many at once don't
 * slip through; a right one clears the count. Any thread.
 */
public final class Throttle {
  private static final int FREE = 3;
  private static final long FIRST_WAIT_NANOS = TimeUnit.SECONDS.toNanos(1);
  private static final long LONGEST_WAIT_NANOS = TimeUnit.MINUTES.toNanos(5);

  /** After so long without an attempt it is as if there had been none. */
  private static final long FORGOTTEN_NANOS = TimeUnit.HOURS.toNanos(1);

  private final BenchClock clock;
  private final int most;

  /** The one that was tried longest ago comes first. */
  private final Map<String, Tries> tries = new LinkedHashMap<>();

  private record Tries(int count, long lastNanos, long waitNanos) {}

  /**
   * Knows nobody yet.
   *
   * @param most how many keys it keeps; beyond that whoever tried longest ago is forgotten
   */
  public Throttle(BenchClock clock, int most) {
    this.clock = clock;
    this.most = most;
  }

  /**
   * Begins an attempt, which counts under every key, unless one of them has to wait.
   *
   * @param keys who tries and from where
   * @return 0 if it may be made, else for how long it must not, in ns; it was not counted then
   */
  public synchronized long begin(List<String> keys) {
    long now = clock.nanos();
    tries.values().removeIf(each -> now - each.lastNanos() > FORGOTTEN_NANOS);
    long wait = 0;
    for (String key : keys) {
      Tries known = tries.getOrDefault(key, new Tries(0, now, 0));
      wait = Math.max(wait, known.lastNanos() + known.waitNanos() - now);
    }
    if (wait > 0) {
      return wait;
    }
    keys.forEach(key -> count(key, now));
    return 0;
  }

  private void count(String key, long now) {
    Tries before = tries.remove(key);
    int count = before == null ? 1 : before.count() + 1;
    int doublings = Math.min(count - FREE, 30);
    long wait = count < FREE ? 0 : Math.min(FIRST_WAIT_NANOS << doublings, LONGEST_WAIT_NANOS);
    tries.put(key, new Tries(count, now, wait));
    if (tries.size() > most) {
      tries.remove(tries.keySet().iterator().next());
    }
  }

  /** The attempt was right: its keys are free again. */
  public synchronized void right(List<String> keys) {
    keys.forEach(tries::remove);
  }

  /** How many keys it keeps. */
  synchronized int size() {
    return tries.size();
  }
}
