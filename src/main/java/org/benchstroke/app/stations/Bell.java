package org.benchstroke.app.stations;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.BooleanSupplier;

/**
 * Rings when something has changed at any station. Whoever waits for it looks for himself at what
 * is new: nothing is queued, so nobody who is slow makes anything grow. Any thread.
 */
public final class Bell {
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition rung = lock.newCondition();

  void ring() {
    lock.lock();
    try {
      rung.signalAll();
    } finally {
      lock.unlock();
    }
  }

  /**
   * Waits until something is so, at most for a time.
   *
   * @param so looked at after each ring; quick
   * @param patienceMillis of wall time
   * @return whether it is so
   * @throws InterruptedException if the thread is interrupted
   */
  public boolean await(BooleanSupplier so, long patienceMillis) throws InterruptedException {
    long left = TimeUnit.MILLISECONDS.toNanos(patienceMillis);
    lock.lock();
    try {
      while (!so.getAsBoolean()) {
        if (left <= 0) {
          return false;
        }
        left = rung.awaitNanos(left);
      }
      return true;
    } finally {
      lock.unlock();
    }
  }
}
