package org.benchstroke.app;

import java.util.function.LongConsumer;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.run.StopSwitch;

/**
 * Follows a virtual clock and holds whoever moves it until the wall has come as far: a run at a
 * pace that a person can watch. It changes nothing of what that clock says. A machine that can't
 * keep up is only slower, and while a person is waited for the clock stands: neither is made up for
 * afterwards. Whoever stops is held no longer. The virtual clock's thread.
 */
final class Pace implements LongConsumer {
  private static final double LONGEST_SECONDS = 0.05;

  /** What is late by more is late for good. */
  private static final int MADE_UP_SLICES = 5;

  private final BenchClock wall;
  private final StopSwitch stop;
  private final long slice;
  private long began;

  /**
   * Begins now.
   *
   * @param scale bench seconds per second of real time
   */
  Pace(double scale, StopSwitch stop) {
    this.wall = SystemClock.scaled(scale);
    this.stop = stop;
    this.slice = (long) (LONGEST_SECONDS * 1e9 * scale);
    this.began = wall.nanos();
  }

  @Override
  public void accept(long nanos) {
    long behind = wall.nanos() - began - nanos;
    if (behind > MADE_UP_SLICES * slice) {
      began += behind;
    }
    try {
      while (!stop.isStopping() && wall.nanos() - began < nanos) {
        wall.waitUntil(Math.min(began + nanos, wall.nanos() + slice));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      stop.stop("the program was asked to end");
    }
  }
}
