package org.benchstroke.record;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.benchstroke.core.clock.Stopwatch;

/**
 * Writes lines on a thread of its own, in their order, so that a disk that takes its time does not
 * hold whoever samples a bench. One thread gives lines.
 */
final class DiskThread implements AutoCloseable {
  /** How far the disk may lag behind what was given before whoever gives must wait. */
  static final long LAG_NANOS = TimeUnit.SECONDS.toNanos(1);

  /** A disk that takes nothing for so long has failed. Own choice. */
  static final long HUNG_NANOS = TimeUnit.SECONDS.toNanos(10);

  private static final long SOON_NANOS = TimeUnit.MILLISECONDS.toNanos(300);

  /** Where the lines go. */
  interface Disk extends Closeable {
    /** Hands a line, with its end, to the system. */
    void write(String line) throws IOException;

    /** Returns when all that was written is on the disk, and its file still has its name. */
    void force() throws IOException;

    /** What it is, for messages. */
    String name();
  }

  private record Line(String text, boolean soon, Stopwatch age) {}

  private final Disk disk;
  private final long lagNanos;
  private final long hungNanos;
  private final Thread thread = new Thread(this::work, "journal");
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition given = lock.newCondition();
  private final Condition taken = lock.newCondition();
  private final Deque<Line> waiting = new ArrayDeque<>();

  /** Handed to the system, or being so, but not known to be on the disk. */
  private final Deque<Line> underWay = new ArrayDeque<>();

  private Optional<IOException> failure = Optional.empty();
  private boolean ending;
  private boolean ended;

  DiskThread(Disk disk) {
    this(disk, LAG_NANOS, HUNG_NANOS);
  }

  DiskThread(Disk disk, long lagNanos, long hungNanos) {
    this.disk = disk;
    this.lagNanos = lagNanos;
    this.hungNanos = hungNanos;
    thread.setDaemon(true);
    thread.start();
  }

  /**
   * Gives a line that may reach the disk a little later; waits only while the disk lags too far.
   *
   * @param soon whether it is forced at once, and not with what comes in the next moments
   * @throws IOException if the disk failed, now or before
   */
  void give(String line, boolean soon) throws IOException {
    lock.lock();
    try {
      add(line, soon);
      await(() -> oldest().map(each -> each.age().nanos() < lagNanos).orElse(true));
    } finally {
      lock.unlock();
    }
  }

  /**
   * Gives a line and waits until it is on the disk, with all before it.
   *
   * @throws IOException if the disk failed, now or before
   */
  void force(String line) throws IOException {
    lock.lock();
    try {
      add(line, true);
      await(() -> oldest().isEmpty());
    } finally {
      lock.unlock();
    }
  }

  private void add(String line, boolean soon) throws IOException {
    throwFailure();
    waiting.add(new Line(line, soon, new Stopwatch()));
    given.signal();
  }

  private void throwFailure() throws IOException {
    if (failure.isPresent()) {
      throw new IOException(failure.get().getMessage(), failure.get());
    }
  }

  private Optional<Line> oldest() {
    return Optional.ofNullable(underWay.isEmpty() ? waiting.peek() : underWay.peek());
  }

  /** A condition of the disk that is looked at whenever that has done something. */
  private interface Done {
    boolean met();
  }

  private void await(Done done) throws IOException {
    boolean interrupted = false;
    long left = hungNanos;
    try {
      while (failure.isEmpty() && !done.met() && left > 0) {
        try {
          left = taken.awaitNanos(left);
        } catch (InterruptedException e) {
          // The run ends at its next step; what it measured is written before.
          interrupted = true;
        }
      }
    } finally {
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
    if (failure.isEmpty() && !done.met()) {
      fail(new IOException("the disk took no data for " + hungNanos / 1_000_000_000L + " s"));
    }
    throwFailure();
  }

  private void fail(IOException e) {
    if (failure.isEmpty()) {
      failure = Optional.of(new IOException(disk.name() + ": " + e.getMessage(), e));
    }
    taken.signalAll();
  }

  private void work() {
    try (disk) {
      while (takeAll()) {
        write();
      }
    } catch (IOException e) {
      ended(Optional.of(e));
    } catch (RuntimeException | Error e) {
      ended(Optional.of(new IOException("the program failed: " + e, e)));
    }
    ended(Optional.empty());
  }

  private void ended(Optional<IOException> why) {
    lock.lock();
    try {
      why.ifPresent(this::fail);
      ended = true;
      taken.signalAll();
    } finally {
      lock.unlock();
    }
  }

  /**
   * Waits for lines.
   *
   * @return whether there are any; false at the end
   */
  private boolean takeAll() {
    lock.lock();
    try {
      while (waiting.isEmpty() && !ending) {
        given.awaitUninterruptibly();
      }
      underWay.addAll(waiting);
      waiting.clear();
      return !underWay.isEmpty();
    } finally {
      lock.unlock();
    }
  }

  /** Writes what was taken and what comes in the next moments, and forces it. */
  private void write() throws IOException {
    boolean soon = false;
    Deque<Line> batch = copyOf(underWay);
    long left = SOON_NANOS;
    while (!batch.isEmpty()) {
      for (Line line : batch) {
        disk.write(line.text());
        soon |= line.soon();
      }
      batch = new ArrayDeque<>();
      while (!soon && left > 0 && batch.isEmpty()) {
        left = waitForMore(left, batch);
      }
    }
    disk.force();
    lock.lock();
    try {
      underWay.clear();
      taken.signalAll();
    } finally {
      lock.unlock();
    }
  }

  private Deque<Line> copyOf(Deque<Line> lines) {
    lock.lock();
    try {
      return new ArrayDeque<>(lines);
    } finally {
      lock.unlock();
    }
  }

  /** Moves more lines into the batch, if there are any in time; gives the time that is left, ns. */
  private long waitForMore(long nanos, Deque<Line> batch) {
    lock.lock();
    try {
      long left = nanos;
      while (waiting.isEmpty() && !ending && left > 0) {
        left = given.awaitNanos(left);
      }
      batch.addAll(waiting);
      underWay.addAll(waiting);
      waiting.clear();
      return ending ? 0 : left;
    } catch (InterruptedException e) {
      // Nobody interrupts this thread; if someone did, what is there is forced now.
      return 0;
    } finally {
      lock.unlock();
    }
  }

  /**
   * Ends the thread when all that was given is on the disk.
   *
   * @throws IOException if the disk failed and nobody was told
   */
  @Override
  public void close() throws IOException {
    lock.lock();
    try {
      ending = true;
      given.signal();
      if (failure.isEmpty()) {
        await(() -> ended);
      }
    } finally {
      lock.unlock();
    }
  }
}
