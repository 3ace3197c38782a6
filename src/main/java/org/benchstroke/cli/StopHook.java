package org.benchstroke.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.benchstroke.app.ExitCode;
import org.benchstroke.run.StopSwitch;

/**
 * What Ctrl-C does while a unit is in the program's hands: it asks for a stop and waits until the
 * safe signal was commanded. Removed when that is done. What it says comes last, and it does not
 * wait for a terminal that takes nothing.
 */
final class StopHook implements AutoCloseable {
  /** Longer than the safe signal can take with all its tries. */
  private static final long STOP_SECONDS = 20;

  private static final long LONGEST_PRINT_MILLIS = 500;

  private final StopSwitch stop;
  private final Shown out;
  private final Shown err;
  private final CountDownLatch ended = new CountDownLatch(1);
  private final Thread hook = new Thread(this::stopAndWait, "stop");
  private volatile Runnable lastly = () -> {};

  private StopHook(StopSwitch stop, Shown out, Shown err) {
    this.stop = stop;
    this.out = out;
    this.err = err;
  }

  static StopHook set(StopSwitch stop, Shown out, Shown err) {
    StopHook made = new StopHook(stop, out, err);
    Runtime.getRuntime().addShutdownHook(made.hook);
    return made;
  }

  /** What is done after everything else: giving the terminal back. */
  void lastly(Runnable task) {
    lastly = task;
  }

  /** All is done; nothing is left to wait for. */
  @Override
  public void close() {
    ended.countDown();
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException shuttingDown) {
      // The hook is what waits for us; there is nothing to remove.
      return;
    }
  }

  /** On Ctrl-C: the work ends cleanly first, and the exit code is the one of a stopped run. */
  private void stopAndWait() {
    stop.stop("stopped at the terminal");
    try {
      boolean clean = ended.await(STOP_SECONDS, TimeUnit.SECONDS);
      out.println(clean ? "Stopped. Exit code 3." : "The run did not end in time.");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    out.drain(LONGEST_PRINT_MILLIS);
    err.drain(LONGEST_PRINT_MILLIS);
    lastly.run();
    Runtime.getRuntime().halt(ExitCode.NOT_COMPLETED);
  }
}
