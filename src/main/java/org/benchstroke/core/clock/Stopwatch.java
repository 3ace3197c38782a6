package org.benchstroke.core.clock;

/**
 * How long something of the machine takes, in wall time: a disk does not get faster with a bench
 * that is simulated faster than real time. Starts when it is made. Immutable; any thread.
 */
public final class Stopwatch {
  private final long began = System.nanoTime();

  /** Nanoseconds of wall time since the start. */
  public long nanos() {
    return System.nanoTime() - began;
  }
}
