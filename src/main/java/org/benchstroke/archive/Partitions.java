package org.benchstroke.archive;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jdbi.v3.core.Handle;

/**
 * The months of an archive on a server, each a partition of every table that grows with the runs;
 * made when the first run of a month comes. Any thread.
 */
final class Partitions {
  private static final List<String> TABLES = List.of("run", "measure", "cause", "instrument");

  /** Only one program makes them at a time; the number is our own. */
  private static final long LOCK = 0x62656e6368L;

  private final Set<YearMonth> there = new HashSet<>();

  /** Sees to the month of an instant, in a transaction of its own. */
  synchronized void provide(Handle handle, Instant begun) {
    YearMonth month = YearMonth.from(begun.atOffset(ZoneOffset.UTC));
    if (there.contains(month)) {
      return;
    }
    String name = "_" + month.toString().replaceAll("[^0-9]", "_");
    if (!exists(handle, name)) {
      handle.useTransaction(transaction -> make(transaction, month, name));
    }
    there.add(month);
  }

  private static boolean exists(Handle handle, String name) {
    return handle
        .createQuery("SELECT to_regclass(:name) IS NOT NULL")
        .bind("name", Connections.SCHEMA + "." + TABLES.get(TABLES.size() - 1) + name)
        .mapTo(Boolean.class)
        .one();
  }

  private static void make(Handle handle, YearMonth month, String name) {
    handle.execute("SELECT pg_advisory_xact_lock(?)", LOCK);
    if (exists(handle, name)) {
      return;
    }
    long from = RunId.first(month.atDay(1).atStartOfDay().toInstant(ZoneOffset.UTC));
    long to = RunId.first(month.plusMonths(1).atDay(1).atStartOfDay().toInstant(ZoneOffset.UTC));
    for (String table : TABLES) {
      handle.execute(
          "CREATE TABLE IF NOT EXISTS "
              + table
              + name
              + " PARTITION OF "
              + table
              + " FOR VALUES FROM ("
              + from
              + ") TO ("
              + to
              + ")");
    }
  }
}
