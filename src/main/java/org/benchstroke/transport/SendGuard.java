package org.benchstroke.transport;

import java.util.concurrent.Future;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import org.benchstroke.clock.Deadline;

/**
 * Ends a send that nobody takes. A system call that writes may block for ever where the other side
 * has stopped reading, and only the port's end wakes it: the port is then closed at the deadline.
 * Safe for any thread.
 */
final class SendGuard {
  private static final ScheduledThreadPoolExecutor TIMER = timer();

  private SendGuard() {}

  private static ScheduledThreadPoolExecutor timer() {
    ThreadFactory daemons =
        work -> {
          Thread thread = new Thread(work, "send deadlines");
          thread.setDaemon(true);
          return thread;
        };
    ScheduledThreadPoolExecutor timer = new ScheduledThreadPoolExecutor(1, daemons);
    timer.setRemoveOnCancelPolicy(true);
    return timer;
  }

  /**
   * Has the port closed at the deadline, unless the result is cancelled before.
   *
   * @param close closes it; on a thread of its own
   */
  static Future<?> at(Deadline deadline, Runnable close) {
    long left = Math.max(1, deadline.remainingWallNanos());
    return TIMER.schedule(close, left, TimeUnit.NANOSECONDS);
  }
}
