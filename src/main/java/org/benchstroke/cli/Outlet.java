package org.benchstroke.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * A standard stream that nobody waits for. What is written is kept, and a thread of its own passes
 * it on: a terminal that was stopped, a stalled connection or a pipe that nobody reads holds up
 * that thread and nothing else. Any thread.
 */
final class Outlet extends OutputStream {
  /** Little enough that what is still to come is known finely. */
  private static final int PIECE = 4096;

  private final OutputStream target;
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition changed = lock.newCondition();
  private ByteArrayOutputStream kept = new ByteArrayOutputStream();
  private int underWay;
  private Optional<IOException> failure = Optional.empty();

  /**
   * Begins to pass on.
   *
   * @param name of its thread
   */
  Outlet(OutputStream target, String name) {
    this.target = target;
    Thread passing = new Passing(name);
    passing.setDaemon(true);
    passing.start();
  }

  /** A class of its own: the first lambda of a process costs a tenth of the time of --version. */
  private final class Passing extends Thread {
    Passing(String name) {
      super(name);
    }

    @Override
    public void run() {
      passOn();
    }
  }

  @Override
  public void write(int single) {
    write(new byte[] {(byte) single}, 0, 1);
  }

  /** Keeps the bytes; once the stream has failed there is nobody to keep them for. */
  @Override
  public void write(byte[] bytes, int from, int length) {
    lock.lock();
    try {
      if (failure.isEmpty()) {
        kept.write(bytes, from, length);
        changed.signalAll();
      }
    } finally {
      lock.unlock();
    }
  }

  /** How many bytes have not been taken yet. */
  int waiting() {
    lock.lock();
    try {
      return kept.size() + underWay;
    } finally {
      lock.unlock();
    }
  }

  /** Why the stream takes no more, if that is so. */
  Optional<IOException> failure() {
    lock.lock();
    try {
      return failure;
    } finally {
      lock.unlock();
    }
  }

  /**
   * Waits until all has been taken, or nothing can be any more.
   *
   * @param millis the longest wait, ms of wall time
   * @return whether nothing is left
   */
  boolean drain(long millis) throws InterruptedException {
    long left = TimeUnit.MILLISECONDS.toNanos(millis);
    lock.lockInterruptibly();
    try {
      while (kept.size() + underWay > 0 && left > 0) {
        left = changed.awaitNanos(left);
      }
      return kept.size() + underWay == 0;
    } finally {
      lock.unlock();
    }
  }

  private void passOn() {
    try {
      while (true) {
        byte[] bytes = next();
        for (int from = 0; from < bytes.length; from += PIECE) {
          int length = Math.min(PIECE, bytes.length - from);
          target.write(bytes, from, length);
          passed(length);
        }
      }
    } catch (IOException e) {
      end(e);
    } catch (InterruptedException e) {
      end(new IOException("the program was asked to end", e));
    }
  }

  private byte[] next() throws InterruptedException {
    lock.lockInterruptibly();
    try {
      while (kept.size() == 0) {
        changed.await();
      }
      byte[] bytes = kept.toByteArray();
      kept = new ByteArrayOutputStream();
      underWay = bytes.length;
      return bytes;
    } finally {
      lock.unlock();
    }
  }

  private void passed(int length) {
    lock.lock();
    try {
      underWay -= length;
      changed.signalAll();
    } finally {
      lock.unlock();
    }
  }

  private void end(IOException why) {
    lock.lock();
    try {
      failure = Optional.of(why);
      kept = new ByteArrayOutputStream();
      underWay = 0;
      changed.signalAll();
    } finally {
      lock.unlock();
    }
  }
}
