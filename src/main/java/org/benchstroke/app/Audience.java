package org.benchstroke.app;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.record.Entry;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Question;
import org.benchstroke.run.Spectator;

/**
 * Those who watch a run, each behind a queue and on a thread of its own. One that fails, or takes
 * nothing for some seconds, sees no more of the run, and that is told at its end; the run does not
 * wait. The runner's thread, but for the watchers' own.
 */
final class Audience implements Spectator {
  /** Far more than a screen lags behind. */
  private static final int MOST_WAITING = 50_000;

  /** Whoever lags behind does not need every reading. */
  private static final int FEW = 50;

  private static final long MOMENT_NANOS = 100_000_000L;
  private static final String LATE = "it fell too far behind";

  private final List<Seat> seats;

  /**
   * Begins to show.
   *
   * @param patienceNanos who takes nothing for so long is left out, ns of wall time
   * @param timeStands whether the bench's time stands while this waits: then nobody who is merely
   *     slower than a run on a virtual clock is left out
   */
  Audience(List<Watcher> watchers, long patienceNanos, boolean timeStands) {
    this.seats =
        watchers.stream().map(watcher -> new Seat(watcher, patienceNanos, timeStands)).toList();
  }

  @Override
  public void planned(Expansion plan) {
    seats.forEach(seat -> seat.give(spectator -> spectator.planned(plan)));
  }

  @Override
  public void happened(Entry entry) {
    seats.forEach(seat -> seat.give(spectator -> spectator.happened(entry)));
  }

  @Override
  public void progressed(Progress progress) {
    seats.stream()
        .filter(seat -> seat.waiting() < FEW)
        .forEach(seat -> seat.give(spectator -> spectator.progressed(progress)));
  }

  /** An operator who is asked only when all have seen what led to the question. */
  Operator before(Operator operator) {
    return new Operator() {
      private Runnable meanwhile = () -> {};

      @Override
      public Answer answer(Question question) {
        settle(meanwhile);
        return operator.answer(question);
      }

      @Override
      public void countDown() {
        operator.countDown();
      }

      @Override
      public void whileWaiting(Runnable task) {
        meanwhile = task;
        operator.whileWaiting(task);
      }
    };
  }

  /**
   * The run is over: returns when all have seen its end, or have been left out.
   *
   * @return who did not see all of it and why, a sentence each
   */
  List<String> end() {
    settle(() -> {});
    return seats.stream().flatMap(seat -> seat.end().stream()).toList();
  }

  private void settle(Runnable meanwhile) {
    for (Seat seat : seats) {
      while (!seat.settled()) {
        meanwhile.run();
      }
    }
  }

  /** One watcher's place. */
  private static final class Seat {
    private final Watcher watcher;
    private final long patienceNanos;
    private final boolean timeStands;
    private final Thread thread;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition changed = lock.newCondition();
    private final Deque<Consumer<Spectator>> waiting = new ArrayDeque<>();

    /** Since it was last known to do something, or had nothing to do. */
    private Stopwatch idle = new Stopwatch();

    private boolean busy;
    private boolean ended;
    private Optional<String> leftOut = Optional.empty();

    Seat(Watcher watcher, long patienceNanos, boolean timeStands) {
      this.watcher = watcher;
      this.patienceNanos = patienceNanos;
      this.timeStands = timeStands;
      this.thread = new Thread(this::show, "watcher " + watcher.name());
      thread.setDaemon(true);
      thread.start();
    }

    int waiting() {
      lock.lock();
      try {
        return waiting.size();
      } finally {
        lock.unlock();
      }
    }

    void give(Consumer<Spectator> news) {
      lock.lock();
      try {
        while (timeStands && !fewerThan(MOST_WAITING)) {
          awaitFewer(MOST_WAITING);
        }
        if (fewerThan(1)) {
          idle = new Stopwatch();
        } else if (!fewerThan(MOST_WAITING)) {
          leaveOut(LATE);
        }
        leaveOutIfLate();
        if (leftOut.isEmpty()) {
          waiting.add(news);
          changed.signalAll();
        }
      } finally {
        lock.unlock();
      }
    }

    /** Waits a moment for it; says whether it has seen all, or is left out. */
    boolean settled() {
      lock.lock();
      try {
        awaitFewer(1);
        return fewerThan(1);
      } finally {
        lock.unlock();
      }
    }

    private boolean fewerThan(int many) {
      return leftOut.isPresent() || waiting.size() + (busy ? 1 : 0) < many;
    }

    /** Waits a moment until fewer than so many are left to be seen. */
    private void awaitFewer(int many) {
      long left = Math.min(MOMENT_NANOS, Math.max(1, patienceNanos - idle.nanos()));
      boolean interrupted = false;
      while (!fewerThan(many) && left > 0) {
        try {
          left = changed.awaitNanos(left);
        } catch (InterruptedException e) {
          // Whoever interrupts wants the run to end, which this does not hold up for long.
          interrupted = true;
        }
      }
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
      leaveOutIfLate();
    }

    private void leaveOutIfLate() {
      if ((busy || !waiting.isEmpty()) && idle.nanos() > patienceNanos) {
        leaveOut(LATE);
      }
    }

    private void leaveOut(String why) {
      if (leftOut.isEmpty()) {
        leftOut = Optional.of(watcher.name() + " did not see all of the run: " + why);
        waiting.clear();
        changed.signalAll();
        thread.interrupt();
      }
    }

    Optional<String> end() {
      lock.lock();
      try {
        ended = true;
        changed.signalAll();
        return leftOut;
      } finally {
        lock.unlock();
      }
    }

    private void show() {
      try {
        Optional<Consumer<Spectator>> news = next();
        while (news.isPresent()) {
          news.get().accept(watcher.spectator());
          news = next();
        }
      } catch (InterruptedException e) {
        // It was left out.
        return;
      } catch (RuntimeException | Error e) {
        lock.lock();
        try {
          leaveOut("it failed: " + e);
        } finally {
          lock.unlock();
        }
      }
    }

    private Optional<Consumer<Spectator>> next() throws InterruptedException {
      lock.lock();
      try {
        busy = false;
        idle = new Stopwatch();
        changed.signalAll();
        while (waiting.isEmpty() && !ended && leftOut.isEmpty()) {
          changed.await();
        }
        idle = new Stopwatch();
        busy = !waiting.isEmpty();
        return Optional.ofNullable(waiting.poll());
      } finally {
        lock.unlock();
      }
    }
  }
}
