package org.benchstroke.transport;

import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.benchstroke.clock.Deadline;

/**
 * Ends a link's send that nobody takes. A system call that writes may block for ever where the
 * other side has stopped reading, and only the port's end wakes it: the port is then closed, at
 * most a tenth of a second after the deadline. A send that works costs two writes to a field: one
 * thread looks after all links from time to time. The link's thread begins and ends.
 */
final class SendGuard {
  private static final long LOOK_MILLIS = 50;
  private static final Set<SendGuard> SENDING = ConcurrentHashMap.newKeySet();

  static {
    ScheduledExecutorService looks =
        Executors.newSingleThreadScheduledExecutor(
            work -> {
              Thread thread = new Thread(work, "send deadlines");
              thread.setDaemon(true);
              return thread;
            });
    var unused =
        looks.scheduleWithFixedDelay(
            () -> SENDING.forEach(SendGuard::look),
            LOOK_MILLIS,
            LOOK_MILLIS,
            TimeUnit.MILLISECONDS);
  }

  private final Runnable close;
  private volatile Deadline deadline;
  private volatile boolean stuck;

  private SendGuard(Runnable close) {
    this.close = close;
  }

  /**
   * A guard for a link.
   *
   * @param close closes its port; called on another thread
   */
  static SendGuard of(Runnable close) {
    SendGuard guard = new SendGuard(close);
    SENDING.add(guard);
    return guard;
  }

  /** A send begins. */
  void begin(Deadline until) {
    deadline = until;
  }

  /** It is over. */
  void end() {
    deadline = null;
  }

  /** Whether a send was given up. */
  boolean stuck() {
    return stuck;
  }

  /** The link is closed. */
  void forget() {
    SENDING.remove(this);
  }

  private void look() {
    Deadline until = deadline;
    if (until != null && until.passed()) {
      stuck = true;
      close.run();
    }
  }
}
