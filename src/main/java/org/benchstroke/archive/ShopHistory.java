package org.benchstroke.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ArchivedRun.InstrumentRow;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/**
 * What statistics ask an archive. Each question is of real runs or of simulated ones, never of
 * both: what a simulation did says nothing of a shop. As safe for threads as its archive.
 */
public final class ShopHistory {
  /** Runs of one sort. */
  private static final String RUNS = "SELECT * FROM run WHERE simulated = :simulated AND ";

  /** The first whole run of each job; what has no order or no serial number is in no job. */
  private static final String FIRST =
      " WHERE r.whole AND r.order_no <> '' AND r.serial <> ''"
          + " AND NOT EXISTS (SELECT 1 FROM attempt e WHERE e.order_no = r.order_no"
          + " AND e.serial = r.serial AND e.simulated = r.simulated AND e.id < r.id AND e.whole)";

  private final Archive archive;
  private final RunFilter filter;
  private final boolean simulated;

  /**
   * Of some runs.
   *
   * @param archive open
   * @param filter which runs
   * @param simulated whether simulated ones are asked for, instead of real ones
   */
  public ShopHistory(Archive archive, RunFilter filter, boolean simulated) {
    this.archive = archive;
    this.filter = filter;
    this.simulated = simulated;
  }

  /**
   * A measure of a run.
   *
   * @param run the run
   * @param measure as it was judged
   */
  public record Measured(Heading run, MeasureRow measure) {}

  /**
   * An instrument in the newest real run of a bench.
   *
   * @param bench the bench's name
   * @param seen when that run began
   * @param instrument what it did there
   */
  public record OnBench(String bench, Instant seen, InstrumentRow instrument) {}

  private Query query(Handle handle, String sql) {
    return handle.createQuery(sql).bindMap(filter.values()).bind("simulated", simulated);
  }

  private String chosen() {
    return "(" + RUNS + filter.condition() + ") r";
  }

  /** The runs, the oldest first. */
  public List<Heading> runs() throws ArchiveFault {
    return headings("SELECT * FROM " + chosen() + " ORDER BY id", q -> q);
  }

  /** Those in which the instrument of this serial number played, the oldest first. */
  public List<Heading> runsWith(String instrument) throws ArchiveFault {
    return headings(
        "SELECT * FROM "
            + chosen()
            + " WHERE EXISTS (SELECT 1 FROM instrument i WHERE i.run = r.id"
            + " AND i.serial = :instrument) ORDER BY id",
        q -> q.bind("instrument", instrument));
  }

  /**
   * Of the jobs whose first whole run is asked for, that run: as found. The oldest first.
   *
   * @see org.benchstroke.jobs.Job#asFound()
   */
  public List<Heading> asFound() throws ArchiveFault {
    return headings("SELECT r.* FROM " + chosen() + FIRST + " ORDER BY r.id", q -> q);
  }

  private List<Heading> headings(String sql, Function<Query, Query> bound) throws ArchiveFault {
    return archive.ask(
        handle ->
            bound.apply(query(handle, sql)).map((row, context) -> RunRows.heading(row)).list());
  }

  /** All measures of this kind, in the order of the runs and of their reports. */
  public List<Measured> measured(String kind) throws ArchiveFault {
    String sql =
        "SELECT r.*, m.kind, m.place AS at_place, m.setpoint_pct, m.truth, m.value, m.u, m.unit,"
            + " m.limit_low, m.limit_high, m.word FROM "
            + chosen()
            + " JOIN measure m ON m.run = r.id WHERE m.kind = :kind"
            + filter.span("m.run")
            + " ORDER BY r.id, m.number";
    return archive.ask(
        handle ->
            query(handle, sql).bind("kind", kind).map((row, context) -> measured(row)).list());
  }

  private static Measured measured(ResultSet row) throws SQLException {
    MeasureRow measure =
        new MeasureRow(
            row.getString("kind"),
            row.getString("at_place"),
            RunRows.number(row, "setpoint_pct"),
            row.getString("truth"),
            RunRows.number(row, "value"),
            RunRows.number(row, "u"),
            row.getString("unit"),
            RunRows.number(row, "limit_low"),
            RunRows.number(row, "limit_high"),
            Optional.ofNullable(row.getString("word")));
    return new Measured(RunRows.heading(row), measure);
  }

  /** The causes that were named of the units as found, each as often as it was. */
  public List<String> causesAsFound() throws ArchiveFault {
    return texts(
        "SELECT c.cause FROM "
            + chosen()
            + " JOIN cause c ON c.run = r.id"
            + FIRST
            + " AND c.named"
            + filter.span("c.run")
            + " ORDER BY c.cause");
  }

  /**
   * The kinds of measures that failed, with or without a condition, on the units as found: each
   * once for a unit, at however many places it failed.
   */
  public List<String> failedAsFound() throws ArchiveFault {
    return texts(
        "SELECT kind FROM (SELECT DISTINCT m.run, m.kind FROM "
            + chosen()
            + " JOIN measure m ON m.run = r.id"
            + FIRST
            + " AND m.word IN ('fail', 'conditional fail')"
            + filter.span("m.run")
            + ") failed ORDER BY kind");
  }

  private List<String> texts(String sql) throws ArchiveFault {
    return archive.ask(handle -> query(handle, sql).mapTo(String.class).list());
  }

  /** The instruments of each bench in its newest run that is asked for, by bench and due date. */
  public List<OnBench> instruments() throws ArchiveFault {
    String sql =
        "SELECT r.bench, r.begun, i.role, i.name, i.maker, i.model, i.serial AS own_serial,"
            + " i.certificate, i.due FROM "
            + chosen()
            + " JOIN instrument i ON i.run = r.id WHERE r.id IN (SELECT max(id) FROM "
            + chosen()
            + " WHERE NOT imported GROUP BY bench) ORDER BY r.bench, i.due, i.number";
    return archive.ask(handle -> query(handle, sql).map((row, context) -> onBench(row)).list());
  }

  private static OnBench onBench(ResultSet row) throws SQLException {
    return new OnBench(
        row.getString("bench"),
        Instant.parse(row.getString("begun")),
        new InstrumentRow(
            row.getString("role"),
            row.getString("name"),
            row.getString("maker"),
            row.getString("model"),
            row.getString("own_serial"),
            row.getString("certificate"),
            row.getString("due")));
  }
}
