package org.benchstroke.speed;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.MadeUpRuns;
import org.postgresql.ds.PGSimpleDataSource;

/**
 * Ten years of runs of a group of shops, made up by the server itself: so many would take half an
 * hour through the program. Every month's partitions are made by the program, by a run of it; the
 * indexes are taken away meanwhile and made again as its migration makes them. One thread.
 */
final class ManyRuns {
  private static final int MONTHS = 120;

  /** Tables and indexes are the archive's own; the names are those of its migrations. */
  private static final Map<String, String> INDEXES = new LinkedHashMap<>();

  static {
    INDEXES.put("attempt_by_order", "attempt (order_no, serial, id)");
    INDEXES.put("run_by_type", "run (unit_type, id)");
    INDEXES.put("run_by_file", "run (folder, file)");
    INDEXES.put("run_by_digest", "run (digest)");
  }

  private final ArchivePlace.OnServer place;
  private final int runs;

  /** So many runs, in an archive that is empty yet. */
  ManyRuns(ArchivePlace.OnServer place, int runs) {
    this.place = place;
    this.runs = runs;
  }

  /** When a made-up run began. */
  Instant begun(int number) {
    return MadeUpRuns.START.plusMillis(number * apart());
  }

  private long apart() {
    return (end().toEpochMilli() - MadeUpRuns.START.toEpochMilli()) / runs;
  }

  /** The end of the last month. */
  private static Instant end() {
    return MadeUpRuns.START
        .atZone(ZoneOffset.UTC)
        .withDayOfMonth(1)
        .plusMonths(MONTHS)
        .minusDays(1)
        .toInstant();
  }

  /** Fills it, and says how long each part took. */
  void fill(Archive archive) throws ArchiveFault, SQLException {
    MadeUpRuns made = new MadeUpRuns(2);
    for (int month = 0; month < MONTHS; month++) {
      long days = Math.round(month * 30.4375) + 5;
      archive.add(made.run((int) (days * 86_400 / MadeUpRuns.SECONDS_APART)));
    }
    PGSimpleDataSource source = new PGSimpleDataSource();
    source.setServerNames(new String[] {place.host()});
    source.setPortNumbers(new int[] {place.port()});
    source.setDatabaseName(place.database());
    source.setUser(place.user().orElseThrow());
    source.setCurrentSchema("benchstroke");
    try (Connection connection = source.getConnection();
        Statement statement = connection.createStatement()) {
      // What refers to runs is made with them; the server need not look for each.
      statement.execute("SET session_replication_role = replica");
      statement.execute("SET synchronous_commit = off");
      statement.execute("SET maintenance_work_mem = '512MB'");
      for (String index : INDEXES.keySet()) {
        statement.execute("DROP INDEX " + index);
      }
      timed(statement, runs + " runs", insertRuns());
      timed(
          statement,
          "attempts",
          "INSERT INTO attempt SELECT serial, order_no, simulated, id, whole FROM run"
              + " ON CONFLICT DO NOTHING");
      timed(statement, "two measures of each", insertMeasures());
      timed(statement, "a cause of each that failed", insertCauses());
      for (Map.Entry<String, String> index : INDEXES.entrySet()) {
        String create = "CREATE INDEX " + index.getKey() + " ON " + index.getValue();
        timed(statement, "index " + index.getKey(), create);
      }
      timed(statement, "analyse", "ANALYZE");
    }
  }

  private static void timed(Statement statement, String what, String sql) throws SQLException {
    long begin = System.nanoTime();
    statement.execute(sql);
    System.out.printf(Locale.ROOT, "| %s | %.0f s |%n", what, (System.nanoTime() - begin) / 1e9);
  }

  /** The milliseconds of the begin of run {@code n}. */
  private String millis() {
    return "(" + MadeUpRuns.START.toEpochMilli() + " + n::bigint * " + apart() + ")";
  }

  private String id() {
    return millis() + " * 65536 + n % 65536";
  }

  private String numbers() {
    return " FROM generate_series(0, " + (runs - 1) + ") AS n";
  }

  private String insertRuns() {
    String begun =
        "to_char(to_timestamp("
            + millis()
            + " / 1000.0) AT TIME ZONE 'UTC', 'YYYY-MM-DD\"T\"HH24:MI:SS.MS\"000000Z\"')";
    return "INSERT INTO run SELECT "
        + id()
        + ", md5('a' || n) || md5('b' || n), 'many-' || n || '.jsonl', 'records', 1000 + n % 1000, 0,"
        + " 'sealed', '0123456789abcdef', 0, 'record',"
        + " 'MANY-' || n / 3 * 2 || CASE WHEN n % 3 = 2 THEN '-B' ELSE '' END,"
        + " 'group order ' || n / 30, 'Made-up customer', 'Ann', NULL, 'Bench ' || n % 40,"
        + " 'Made-up hall', 'Made-up type ' || n % 16, 'Short acceptance', '1',"
        + " 'benchstroke, made up', "
        + begun
        + ", "
        + begun
        + ", 'complete', false, false, true, n % 3 <> 0,"
        + " CASE WHEN n % 3 <> 0 THEN 'pass' ELSE 'fail' END, 'Made up.', 3.0,"
        + " 'travel_error_pct', 'side 50 up'"
        + numbers();
  }

  private String insertMeasures() {
    return "INSERT INTO measure SELECT "
        + id()
        + ", k, CASE k WHEN 0 THEN 'travel_error_pct' ELSE 'dead_band_pct' END, 'side 50 up', 50.0,"
        + " 'feedback', (n % 97) / 100.0, 0.1, '%', NULL, 1.0, 'pass'"
        + numbers()
        + ", generate_series(0, 1) AS k";
  }

  private String insertCauses() {
    return "INSERT INTO cause SELECT "
        + id()
        + ", 0, 'zero_shift', 0.75, true"
        + numbers()
        + " WHERE n % 3 = 0";
  }
}
