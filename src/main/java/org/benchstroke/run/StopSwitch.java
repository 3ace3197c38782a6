package org.benchstroke.run;

import java.util.concurrent.atomic.AtomicReference;

/**
 * Asks a run to stop; it then ends with the safe signal. Any thread. A software stop, never the
 * emergency stop.
 */
public final class StopSwitch {
  private final AtomicReference<String> reason = new AtomicReference<>("");

  /** Asks for the stop; the first reason counts. */
  public void stop(String why) {
    reason.compareAndSet("", why);
  }

  /** Whether a stop was asked for. */
  public boolean isStopping() {
    return !reason.get().isEmpty();
  }

  void check() throws RunEnded {
    if (!reason.get().isEmpty()) {
      throw new RunEnded(RunEnded.How.STOPPED, reason.get());
    }
  }
}
