package org.benchstroke.record;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;

/** Forces samples to the disk on a thread of its own, soon after they were written. Any thread. */
final class SampleForcing implements AutoCloseable {
  private static final long SOON_MILLIS = 500;

  private final FileChannel channel;
  private final AtomicBoolean waiting = new AtomicBoolean();
  private final AtomicReference<Optional<IOException>> failure =
      new AtomicReference<>(Optional.empty());
  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread made = new Thread(work, "journal");
            made.setDaemon(true);
            return made;
          });

  SampleForcing(FileChannel channel) {
    this.channel = channel;
  }

  /** A sample was written: it will be on the disk within a second. */
  void due() {
    if (waiting.compareAndSet(false, true)) {
      var unused = thread.schedule(this::force, SOON_MILLIS, TimeUnit.MILLISECONDS);
    }
  }

  /** Why samples can't be forced any more; empty while they can. */
  Optional<IOException> failure() {
    return failure.get();
  }

  private void force() {
    waiting.set(false);
    try {
      if (channel.isOpen()) {
        channel.force(false);
      }
    } catch (IOException e) {
      failure.set(Optional.of(e));
    }
  }

  /** Takes no more; never interrupts a force under way, which would close the channel. */
  @Override
  public void close() {
    thread.shutdown();
  }
}
