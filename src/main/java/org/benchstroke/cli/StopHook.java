package org.benchstroke.cli;

import java.io.PrintWriter;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.benchstroke.run.StopSwitch;

/**
 * What Ctrl-C does while a unit is in the program's hands: it asks for a stop and waits until the
 * safe signal was commanded. Removed when that is done.
 */
final class StopHook {
  /** Longer than the safe signal can take with all its tries. */
  private static final long STOP_SECONDS = 20;

  private final StopSwitch stop;
  private final PrintWriter out;
  private final PrintWriter err;
  private final CountDownLatch ended = new CountDownLatch(1);
  private final Thread hook = new Thread(this::stopAndWait, "stop");

  private StopHook(StopSwitch stop, PrintWriter out, PrintWriter err) {
    this.stop = stop;
    this.out = out;
    this.err = err;
  }

  static StopHook set(StopSwitch stop, PrintWriter out, PrintWriter err) {
    StopHook made = new StopHook(stop, out, err);
    Runtime.getRuntime().addShutdownHook(made.hook);
    return made;
  }

  /** All is done; nothing is left to wait for. */
  void remove() {
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
    out.flush();
    err.flush();
    Runtime.getRuntime().halt(ExitCode.NOT_COMPLETED);
  }
}
