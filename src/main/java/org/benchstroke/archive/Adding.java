package org.benchstroke.archive;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.archive.Archive.Added;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.jdbi.v3.core.Handle;

/**
 * Runs on their way into the tables, within one transaction: each finds its place first, then all
 * are put in together, which takes a fraction of the time. One thread.
 */
final class Adding {
  private final Handle handle;
  private final boolean anew;
  private final Map<Long, ArchivedRun> placed = new LinkedHashMap<>();

  /**
   * Within a transaction.
   *
   * @param anew whether what seems unchanged is written again
   */
  Adding(Handle handle, boolean anew) {
    this.handle = handle;
    this.anew = anew;
  }

  /** Adds them; gives what became of each. */
  List<Added> all(List<ArchivedRun> runs) {
    List<Added> added = new ArrayList<>();
    for (ArchivedRun run : runs) {
      added.add(place(run));
    }
    RunRows.insert(handle, placed);
    return added;
  }

  private Added place(ArchivedRun run) {
    Map<Long, Heading> near = near(RunId.first(run.facts().begun()));
    Optional<Long> same = idOf(near, run);
    Optional<Long> other = same.isPresent() ? Optional.empty() : placeOf(near, run);
    if (same.isPresent() && !anew && isUnchanged(near.get(same.get()), run.heading())) {
      return Added.UNCHANGED;
    }
    same.or(() -> other).ifPresent(id -> RunRows.delete(handle, id));
    placed.put(same.or(() -> other).orElseGet(() -> free(near, run)), run);
    return same.isPresent() ? Added.UPDATED : other.isPresent() ? Added.REPLACED : Added.NEW;
  }

  /** Runs that began in the same millisecond. */
  private Map<Long, Heading> near(long first) {
    long last = first + RunId.ROOM - 1;
    Map<Long, Heading> near =
        handle
            .createQuery("SELECT * FROM run WHERE id BETWEEN :first AND :last")
            .bind("first", first)
            .bind("last", last)
            .reduceResultSet(
                new HashMap<Long, Heading>(),
                (all, row, context) -> {
                  all.put(row.getLong("id"), RunRows.heading(row));
                  return all;
                });
    placed.forEach(
        (id, run) -> {
          if (id >= first && id <= last) {
            near.put(id, run.heading());
          }
        });
    return near;
  }

  /** From what it was judged makes no difference, if it was judged alike. */
  private static boolean isUnchanged(Heading there, Heading now) {
    return there.labels().equals(now.labels())
        && there.result().verdict().equals(now.result().verdict())
        && there.result().whole() == now.result().whole()
        && there.file().amendments() == now.file().amendments()
        && there.file().seal().equals(now.file().seal())
        && there.file().flaws() == now.file().flaws()
        && there.file().name().equals(now.file().name())
        && there.file().folder().equals(now.file().folder());
  }

  private static Optional<Long> idOf(Map<Long, Heading> near, ArchivedRun run) {
    return near.entrySet().stream()
        .filter(each -> each.getValue().file().sha256().equals(run.file().sha256()))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  /** Of another record that had its name, in its folder or that of another computer. */
  private static Optional<Long> placeOf(Map<Long, Heading> near, ArchivedRun run) {
    String begun = RunRows.stamp(run.facts().begun());
    return near.entrySet().stream()
        .filter(each -> each.getValue().file().name().equals(run.file().name()))
        .filter(each -> RunRows.stamp(each.getValue().facts().begun()).equals(begun))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  private static long free(Map<Long, Heading> near, ArchivedRun run) {
    long id = RunId.wanted(run.facts().begun(), run.file().sha256());
    for (int tried = 0; tried < RunId.ROOM && near.containsKey(id); tried++) {
      id = RunId.after(id);
    }
    return id;
  }
}
