package org.benchstroke.io.transport;

import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.Deadline;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Ends a link's send that nobody takes. A system call that writes may block for ever where the
 * other side has stopped reading, and only the port's end wakes it: the port is then closed, at
 * most a tenth of a second after the deadline. A send that works costs two writes under a lock of
 * its own: one thread looks after all links from time to time. The link's thread begins and ends.
 */
final class SendGuard {
  private static final Logger LOG = LoggerFactory.getLogger(SendGuard.class);
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
  private Optional<Deadline> deadline = Optional.empty();
  private boolean stuck;

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
  synchronized void begin(Deadline until) {
    deadline = Optional.of(until);
  }

  /** It is over. */
  synchronized void end() {
    deadline = Optional.empty();
  }

  /** Whether a send was given up. */
  synchronized boolean stuck() {
    return stuck;
  }

  /** The link is closed. */
  void forget() {
    SENDING.remove(this);
  }

  /** Once for each send that is late; outside the lock, for the sender wakes by it. */
  private void look() {
    synchronized (this) {
      if (deadline.isEmpty() || !deadline.get().passed()) {
        return;
      }
      stuck = true;
      deadline = Optional.empty();
    }
    try {
      close.run();
    } catch (RuntimeException e) {
      LOG.error("a port that takes no bytes could not be closed", e);
    }
  }
}
