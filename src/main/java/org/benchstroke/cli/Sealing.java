package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.benchstroke.record.JudgementSeal;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.NoKey;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Seals records with the bench's key, or says why it doesn't: no run fails by that, and none waits
 * longer than ten seconds for a disk. Made on one thread; sealing is for any.
 */
final class Sealing {
  private static final long LONGEST_SECONDS = 10;

  private final Shown err;
  private final Optional<BenchKey> key;
  private final String why;

  private Sealing(Shown err, Optional<BenchKey> key, String why) {
    this.err = err;
    this.key = key;
    this.why = why;
  }

  /**
   * Opens the key before anything moves, or makes it.
   *
   * @param mayAsk whether a person may be asked for its passphrase
   */
  static Sealing begin(CommandSpec spec, boolean mayAsk) {
    Shown err = Shown.err(spec);
    try {
      return new Sealing(err, Optional.of(key(spec, mayAsk)), "");
    } catch (NoKey e) {
      return new Sealing(err, Optional.empty(), e.getMessage());
    }
  }

  /** The bench's key, with a passphrase from the environment or from a person. */
  static BenchKey key(CommandSpec spec, boolean mayAsk) throws NoKey {
    KeyPlace place = KeyPlace.of(spec);
    try {
      return open(place, place.passphrase().orElse(""));
    } catch (NoKey e) {
      Optional<String> typed =
          e.locked() && mayAsk
              ? Input.of(spec).secret("Passphrase of this bench's key (Enter: not sealed): ")
              : Optional.empty();
      if (typed.isEmpty()) {
        throw e;
      }
      return open(place, typed.get());
    }
  }

  private static BenchKey open(KeyPlace place, String passphrase) throws NoKey {
    FutureTask<BenchKey> opening = new FutureTask<>(() -> place.keys().open(passphrase));
    try {
      return done(opening);
    } catch (ExecutionException e) {
      throw e.getCause() instanceof NoKey known ? known : NoKey.because(e.getCause());
    } catch (TimeoutException e) {
      throw NoKey.because(new IOException(place + " did not answer within 10 s"));
    }
  }

  /** Waits a while: a disk may hang, and whoever holds a lock on it. */
  private static <T> T done(FutureTask<T> task) throws ExecutionException, TimeoutException {
    Thread thread = new Thread(task, "seal");
    thread.setDaemon(true);
    thread.start();
    boolean interrupted = false;
    try {
      while (true) {
        try {
          return task.get(LONGEST_SECONDS, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
          interrupted = true;
        }
      }
    } finally {
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
  }

  /** Seals a record that is closed, if it is there; says so if it can't. */
  synchronized void seal(Path record) {
    if (!Files.exists(record)) {
      return;
    }
    String reason = key.isEmpty() ? why : failure(record, key.get());
    if (!reason.isEmpty()) {
      err.println("The record is not sealed: " + reason);
    }
  }

  /**
   * Seals the judgement beside a record that is sealed. Without it the archive judges the record
   * itself.
   */
  void sealJudgement(Path record, Path judgement) {
    key.filter(k -> Files.exists(SealFile.of(record)))
        .map(
            k ->
                failure(
                    () -> {
                      JudgementSeal.write(record, judgement, k);
                      return "";
                    }))
        .filter(why -> !why.isEmpty())
        .ifPresent(why -> err.println("The judgement is not sealed: " + why));
  }

  /** Why it could not be sealed; empty if it is. */
  private static String failure(Path record, BenchKey key) {
    return failure(
        () -> {
          SealFile.write(record, key);
          return "";
        });
  }

  private static String failure(Callable<String> work) {
    try {
      return done(new FutureTask<>(work));
    } catch (ExecutionException e) {
      return String.valueOf(e.getCause().getMessage());
    } catch (TimeoutException e) {
      return "the disk took no data for 10 s";
    }
  }
}
