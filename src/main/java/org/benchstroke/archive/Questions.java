package org.benchstroke.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.archive.ArchiveState.KeyOfBench;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/** What an archive is asked, the same for SQLite and PostgreSQL. Stateless. */
final class Questions {
  private static final String NEWEST = " ORDER BY id DESC LIMIT :most OFFSET :skip";

  /** A job shown has so many runs on average, or fewer. */
  private static final int RUNS_OF_A_JOB = 10;

  private Questions() {}

  private static String runs(RunFilter filter) {
    return "SELECT * FROM run WHERE " + filter.condition() + NEWEST;
  }

  static List<Heading> runs(Handle handle, RunFilter filter, int most, int skip) {
    return asked(handle, runs(filter), filter, most, skip)
        .map((row, context) -> RunRows.heading(row))
        .list();
  }

  private static Query asked(Handle handle, String sql, RunFilter filter, int most) {
    return asked(handle, sql, filter, most, 0);
  }

  private static Query asked(Handle handle, String sql, RunFilter filter, int most, int skip) {
    Query query = handle.createQuery(sql).bindMap(filter.values());
    return sql.contains(":most") ? query.bind("most", most).bind("skip", skip) : query;
  }

  /**
   * Of the runs asked for the newest say which jobs; of these all runs count. As found is the first
   * whole run, as left the last.
   */
  private static String jobs(RunFilter filter) {
    return "WITH chosen AS (SELECT DISTINCT order_no, serial, simulated FROM"
        + " (SELECT order_no, serial, simulated FROM run WHERE "
        + filter.condition()
        + " ORDER BY id DESC LIMIT :runs) newest),"
        + " numbered AS (SELECT r.id, r.begun, r.order_no, r.serial, r.simulated, r.unit_type,"
        + " r.verdict, r.whole, r.passed,"
        + " row_number() OVER (PARTITION BY r.order_no, r.serial, r.simulated"
        + " ORDER BY r.whole DESC, r.id) AS from_first,"
        + " row_number() OVER (PARTITION BY r.order_no, r.serial, r.simulated"
        + " ORDER BY r.whole DESC, r.id DESC) AS from_last,"
        + " row_number() OVER (PARTITION BY r.order_no, r.serial, r.simulated"
        + " ORDER BY r.id DESC) AS newest"
        + " FROM chosen c JOIN attempt a ON a.order_no = c.order_no AND a.serial = c.serial"
        + " AND a.simulated = c.simulated JOIN run r ON r.id = a.id),"
        + " jobs AS (SELECT order_no, serial, simulated, count(*) AS attempts,"
        + " sum(CASE WHEN whole THEN 1 ELSE 0 END) AS whole_attempts,"
        + " max(CASE WHEN whole AND from_first = 1 THEN CASE WHEN passed THEN 1 ELSE 0 END END)"
        + " AS first_pass,"
        + " max(CASE WHEN whole AND from_first = 1 THEN verdict END) AS as_found,"
        + " max(CASE WHEN whole AND from_last = 1 THEN verdict END) AS as_left,"
        + " max(CASE WHEN newest = 1 THEN unit_type END) AS unit_type,"
        + " min(begun) AS first_begun, max(begun) AS last_begun, max(id) AS last_id"
        + " FROM numbered GROUP BY order_no, serial, simulated)"
        + " SELECT * FROM jobs"
        + (filter.verdict().isPresent() ? " WHERE as_left = :verdict" : "")
        + " ORDER BY last_id DESC LIMIT :most OFFSET :skip";
  }

  static List<JobLine> jobs(Handle handle, RunFilter filter, int most, int skip) {
    return asked(handle, jobs(filter), filter, most, skip)
        .bind("runs", RUNS_OF_A_JOB * ((long) most + skip))
        .map((row, context) -> job(row))
        .list();
  }

  private static JobLine job(ResultSet row) throws SQLException {
    int pass = row.getInt("first_pass");
    Optional<Boolean> firstPass = row.wasNull() ? Optional.empty() : Optional.of(pass == 1);
    return new JobLine(
        row.getString("serial"),
        row.getString("order_no"),
        row.getBoolean("simulated"),
        row.getString("unit_type"),
        row.getInt("attempts"),
        row.getInt("whole_attempts"),
        firstPass,
        Optional.ofNullable(row.getString("as_found")),
        Optional.ofNullable(row.getString("as_left")),
        Instant.parse(row.getString("first_begun")),
        Instant.parse(row.getString("last_begun")));
  }

  /** A whole run with no whole run of its job before it. */
  private static String firstPasses(RunFilter filter) {
    return "SELECT unit_type, count(*) AS jobs,"
        + " sum(CASE WHEN passed THEN 1 ELSE 0 END) AS first_passes"
        + " FROM (SELECT * FROM run WHERE "
        + filter.condition()
        + ") r WHERE whole AND NOT simulated"
        + " AND NOT EXISTS (SELECT 1 FROM attempt e WHERE e.order_no = r.order_no"
        + " AND e.serial = r.serial AND e.id < r.id AND e.whole AND NOT e.simulated)"
        + " GROUP BY unit_type ORDER BY unit_type";
  }

  static List<YieldLine> yields(Handle handle, RunFilter filter) {
    return asked(handle, firstPasses(filter), filter, 0)
        .map(
            (row, context) ->
                new YieldLine(
                    row.getString("unit_type"), row.getInt("jobs"), row.getInt("first_passes")))
        .list();
  }

  static List<MeasureRow> measures(Handle handle, String sha256) {
    return handle
        .createQuery(
            "SELECT m.* FROM run r JOIN measure m ON m.run = r.id WHERE r.digest = :digest"
                + " ORDER BY m.number")
        .bind("digest", sha256)
        .map((row, context) -> RunRows.measure(row))
        .list();
  }

  /** Digests are hexadecimal digits: what begins like this lies before this and a later letter. */
  static List<Heading> byDigest(Handle handle, String beginning) {
    return handle
        .createQuery("SELECT * FROM run WHERE digest >= :from AND digest < :to ORDER BY id")
        .bind("from", beginning)
        .bind("to", beginning + "g")
        .map((row, context) -> RunRows.heading(row))
        .list();
  }

  /** The names that a column holds, in order. */
  static List<String> names(Handle handle, String column) {
    return handle
        .createQuery("SELECT DISTINCT " + column + " FROM run ORDER BY " + column)
        .mapTo(String.class)
        .list();
  }

  static Map<String, Heading> ofFolder(Handle handle, String folder, String from) {
    return handle
        .createQuery("SELECT * FROM run WHERE folder = :folder AND file >= :from")
        .bind("folder", folder)
        .bind("from", from)
        .reduceResultSet(
            new HashMap<String, Heading>(),
            (all, row, context) -> {
              all.put(row.getString("file"), RunRows.heading(row));
              return all;
            });
  }

  static Map<String, String> benchesByDigest(Handle handle) {
    return handle
        .createQuery("SELECT digest, bench FROM run")
        .reduceResultSet(
            new HashMap<String, String>(),
            (all, row, context) -> {
              all.put(row.getString(1), row.getString(2));
              return all;
            });
  }

  static void remove(Handle handle, String sha256) {
    handle
        .createQuery("SELECT id FROM run WHERE digest = :digest")
        .bind("digest", sha256)
        .mapTo(Long.class)
        .list()
        .forEach(id -> RunRows.delete(handle, id));
  }

  static ArchiveState state(Handle handle) {
    List<KeyOfBench> keys =
        handle
            .createQuery("SELECT fingerprint, bench FROM bench_key ORDER BY bench, fingerprint")
            .map((row, context) -> new KeyOfBench(row.getString(1), row.getString(2)))
            .list();
    return handle
        .createQuery(
            "SELECT count(*), sum(CASE WHEN flaws > 0 THEN 1 ELSE 0 END), min(begun), max(begun)"
                + " FROM run")
        .map(
            (row, context) ->
                new ArchiveState(
                    Schema.VERSION,
                    row.getLong(1),
                    row.getLong(2),
                    Optional.ofNullable(row.getString(3)).map(Instant::parse),
                    Optional.ofNullable(row.getString(4)).map(Instant::parse),
                    keys))
        .one();
  }

  static Map<String, List<String>> plans(
      Handle handle, boolean onServer, RunFilter serial, RunFilter day, RunFilter years) {
    Map<String, List<String>> plans = new LinkedHashMap<>();
    plans.put("by serial", plan(handle, onServer, runs(serial), serial));
    plans.put("a day", plan(handle, onServer, runs(day), day));
    plans.put("jobs of a day", plan(handle, onServer, jobs(day), day));
    plans.put("yield by type", plan(handle, onServer, firstPasses(years), years));
    return plans;
  }

  private static List<String> plan(Handle handle, boolean onServer, String sql, RunFilter filter) {
    String explain = onServer ? "EXPLAIN (COSTS OFF) " : "EXPLAIN QUERY PLAN ";
    Query query = asked(handle, explain + sql, filter, 50);
    if (sql.contains(":runs")) {
      query.bind("runs", 500L);
    }
    return query.map((row, context) -> row.getString(onServer ? 1 : 4)).list();
  }
}
