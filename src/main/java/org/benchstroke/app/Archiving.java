package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.FolderOfRecords;
import org.benchstroke.archive.ReadRun;
import org.benchstroke.archive.Taken;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;

/**
 * Puts runs into the archive when they have ended, and after them what it lacks of their folder. No
 * run fails by that, and none waits longer than twenty seconds for a server. Stateless.
 */
public final class Archiving {
  private static final int LONGEST_SECONDS = 20;

  /** So many of the newest records of a folder are compared with the archive, by their names. */
  private static final int LOOKED_AT = 500;

  /** So many are caught up after a run: what is left waits for the next, or for a command. */
  private static final int MOST_AT_ONCE = 25;

  /** A record that has no end yet, and grew so lately, is of a run that goes on. */
  private static final Duration STILL_WRITTEN = Duration.ofMinutes(10);

  private Archiving() {}

  private interface Work {
    List<String> done() throws ArchiveFault;
  }

  /**
   * Adds a run that has just ended, and catches up.
   *
   * @param aids its judgement, computed already
   * @return what people should know, a line each; none if all is well
   */
  public static List<String> afterRun(ArchivePlace place, Path record, TwinAndCauses aids) {
    return bounded(
        place,
        () -> {
          List<String> told = new ArrayList<>();
          try (Archive archive = Archive.open(place)) {
            tell(archive.add(ReadRun.of(record, aids)), record, told);
            catchUp(archive, record, told);
          }
          return told;
        });
  }

  /** Brings a record that was amended up to date, where there is an archive. */
  public static List<String> afterAmendment(ArchivePlace place, Path record) {
    if (place instanceof ArchivePlace.InFile in && !Files.exists(in.file())) {
      return List.of();
    }
    return bounded(
        place,
        () -> {
          List<String> told = new ArrayList<>();
          try (Archive archive = Archive.existing(place)) {
            add(archive, Taken.of(record, false), told);
          }
          return told;
        });
  }

  /** Adds what a bench's own check left beside the records, where there is an archive. */
  public static List<String> afterCheck(ArchivePlace place, Path folder) {
    return bounded(
        place,
        () -> {
          List<String> told = new ArrayList<>();
          try (Archive archive = Archive.open(place)) {
            checks(archive, folder, told);
          }
          return told;
        });
  }

  /**
   * Adds the checks of benches of a folder.
   *
   * @param told gets why, if they can't be read
   * @return how many were not there
   */
  public static int checks(Archive archive, Path folder, List<String> told) throws ArchiveFault {
    try {
      return archive.addChecks(new BenchChecks(folder).archived());
    } catch (IOException e) {
      told.add(folder.resolve(BenchChecks.NAME) + ": can't be read: " + e.getMessage());
    } catch (WrongRequest e) {
      told.add(e.getMessage());
    }
    return 0;
  }

  private static void catchUp(Archive archive, Path record, List<String> told) throws ArchiveFault {
    Path folder = record.toAbsolutePath().normalize().getParent();
    checks(archive, folder, told);
    List<Path> missing = FolderOfRecords.of(folder).missing(archive, LOOKED_AT, false);
    int left = MOST_AT_ONCE;
    int over = 0;
    for (Path each : missing) {
      if (isStillWritten(each)) {
        continue;
      }
      if (left > 0) {
        left -= add(archive, Taken.of(each, false), told) ? 1 : 0;
      } else {
        over++;
      }
    }
    if (over > 0) {
      told.add(
          over + " older records are not in the archive yet: archive catch-up adds them at once.");
    }
  }

  /**
   * Adds what was read.
   *
   * @param told gets what people should know of it
   * @return whether there was something to add
   */
  public static boolean add(Archive archive, Taken taken, List<String> told) throws ArchiveFault {
    if (taken.run().isEmpty()) {
      return false;
    }
    tell(archive.add(taken.run().get()), taken.file(), told);
    return true;
  }

  private static void tell(Archive.Added added, Path record, List<String> told) {
    if (added == Archive.Added.REPLACED) {
      told.add(
          record
              + ": its bytes have changed since it was archived; the archive has what it says now"
              + " (verify tells whether it is as it was sealed).");
    }
  }

  /** Whether another program is at it. */
  public static boolean isStillWritten(Path record) {
    try {
      Instant grew = Files.getLastModifiedTime(record).toInstant();
      return grew.plus(STILL_WRITTEN).isAfter(SystemClock.realTime().utc())
          && RecordHeading.read(record).closed().isEmpty();
    } catch (IOException | RecordReader.NotARecord e) {
      return false;
    }
  }

  /** A server may hang, and a disk. */
  private static List<String> bounded(ArchivePlace place, Work work) {
    FutureTask<List<String>> task = new FutureTask<>(work::done);
    Thread thread = new Thread(task, "archive");
    thread.setDaemon(true);
    thread.start();
    try {
      return task.get(LONGEST_SECONDS, TimeUnit.SECONDS);
    } catch (ExecutionException e) {
      return List.of(failed(place, e.getCause()));
    } catch (TimeoutException e) {
      return List.of(later("the archive " + place + " did not answer within 20 s"));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return List.of(later("the archive " + place + " was not waited for"));
    }
  }

  private static String failed(ArchivePlace place, Throwable cause) {
    return later(
        cause instanceof ArchiveFault fault
            ? fault.getMessage()
            : "the archive " + place + " failed: " + cause);
  }

  private static String later(String why) {
    return "WARNING: not in the archive yet: " + why + ". The record is safe; a later run adds it.";
  }
}
