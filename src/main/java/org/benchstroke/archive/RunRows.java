package org.benchstroke.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.archive.ArchivedRun.CauseRow;
import org.benchstroke.archive.ArchivedRun.Facts;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ArchivedRun.InstrumentRow;
import org.benchstroke.archive.ArchivedRun.Labels;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.archive.ArchivedRun.RecordFile;
import org.benchstroke.archive.ArchivedRun.Result;
import org.benchstroke.archive.ArchivedRun.Worst;
import org.benchstroke.record.signing.PublicHalf;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jdbi.v3.core.statement.SqlStatement;

/** Runs as rows of the tables, and back. Stateless. */
final class RunRows {
  /** Of one length, so that texts sort by time, and to the microsecond, as a clock has it. */
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSSSSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private static final List<String> RUN =
      List.of(
          "id",
          "digest",
          "file",
          "folder",
          "bytes",
          "amendments",
          "seal",
          "seal_key",
          "flaws",
          "judged_from",
          "serial",
          "order_no",
          "customer",
          "operator",
          "tag",
          "bench",
          "place",
          "unit_type",
          "procedure",
          "procedure_version",
          "program",
          "begun",
          "ended",
          "ending",
          "simulated",
          "imported",
          "whole",
          "passed",
          "verdict",
          "reason",
          "worst_margin",
          "worst_kind",
          "worst_place");

  private static final String INSERT_RUN = insert("run", RUN);
  private static final String INSERT_MEASURE =
      insert(
          "measure",
          List.of(
              "run",
              "number",
              "kind",
              "place",
              "setpoint_pct",
              "truth",
              "value",
              "u",
              "unit",
              "limit_low",
              "limit_high",
              "word"));
  private static final String INSERT_CAUSE =
      insert("cause", List.of("run", "number", "cause", "probability", "named"));
  private static final String INSERT_INSTRUMENT =
      insert(
          "instrument",
          List.of(
              "run", "number", "role", "name", "maker", "model", "serial", "certificate", "due"));

  private static final String INSERT_ATTEMPT =
      insert("attempt", List.of("serial", "order_no", "simulated", "id", "whole"));

  private static final String INSERT_KEY =
      insert("bench_key", List.of("fingerprint", "bench", "public_half"))
          + " ON CONFLICT DO NOTHING";

  private RunRows() {}

  private static String insert(String table, List<String> columns) {
    return "INSERT INTO "
        + table
        + " ("
        + String.join(", ", columns)
        + ") VALUES ("
        + Stream.generate(() -> "?").limit(columns.size()).collect(Collectors.joining(", "))
        + ")";
  }

  static String stamp(Instant instant) {
    return STAMP.format(instant);
  }

  /** Numbers the places of a statement. */
  private static final class Places<S extends SqlStatement<S>> {
    private final S statement;
    private int next;

    Places(S statement) {
      this.statement = statement;
    }

    Places<S> put(String text) {
      statement.bind(next++, text);
      return this;
    }

    Places<S> put(long number) {
      statement.bind(next++, number);
      return this;
    }

    Places<S> put(boolean truth) {
      statement.bind(next++, truth);
      return this;
    }

    Places<S> put(OptionalDouble number) {
      statement.bind(next++, number.isPresent() ? (Double) number.getAsDouble() : null);
      return this;
    }
  }

  /** Puts runs into all their tables. */
  static void insert(Handle handle, Map<Long, ArchivedRun> runs) {
    batch(handle, INSERT_RUN, runs, (batch, id, run) -> add(batch, id, run.heading()));
    batch(handle, INSERT_ATTEMPT, runs, (batch, id, run) -> addAttempt(batch, id, run.heading()));
    batch(handle, INSERT_MEASURE, runs, (batch, id, run) -> addMeasures(batch, id, run.measures()));
    batch(handle, INSERT_CAUSE, runs, (batch, id, run) -> addCauses(batch, id, run.causes()));
    batch(
        handle,
        INSERT_INSTRUMENT,
        runs,
        (batch, id, run) -> addInstruments(batch, id, run.instruments()));
    Map<PublicHalf, String> keys = new LinkedHashMap<>();
    runs.values()
        .forEach(run -> run.key().ifPresent(key -> keys.putIfAbsent(key, run.facts().bench())));
    keys.forEach((key, bench) -> handle.execute(INSERT_KEY, key.fingerprint(), bench, key.pem()));
  }

  private interface Rows {
    void of(PreparedBatch batch, long id, ArchivedRun run);
  }

  private static void batch(Handle handle, String sql, Map<Long, ArchivedRun> runs, Rows rows) {
    try (PreparedBatch batch = handle.prepareBatch(sql)) {
      runs.forEach((id, run) -> rows.of(batch, id, run));
      if (batch.size() > 0) {
        batch.execute();
      }
    }
  }

  private static void add(PreparedBatch batch, long id, Heading run) {
    Places<?> places = new Places<>(batch);
    RecordFile file = run.file();
    places.put(id).put(file.sha256()).put(file.name()).put(file.folder()).put(file.bytes());
    places.put(file.amendments()).put(file.seal()).put(file.sealKey().orElse(null));
    places.put(file.flaws()).put(file.judgedFrom());
    Labels labels = run.labels();
    places.put(labels.serial()).put(labels.order()).put(labels.customer());
    places.put(labels.operator()).put(labels.tag().orElse(null));
    Facts facts = run.facts();
    places.put(facts.bench()).put(facts.place()).put(facts.unitType()).put(facts.procedure());
    places.put(facts.procedureVersion()).put(facts.program()).put(stamp(facts.begun()));
    places.put(stamp(facts.ended())).put(facts.ending());
    Result result = run.result();
    places.put(facts.simulated()).put(facts.imported()).put(result.whole());
    places.put(result.passed()).put(result.verdict()).put(result.reason());
    Optional<Worst> worst = result.worst();
    places.put(worst.map(w -> OptionalDouble.of(w.margin())).orElse(OptionalDouble.empty()));
    places.put(worst.map(Worst::kind).orElse(null)).put(worst.map(Worst::place).orElse(null));
    batch.add();
  }

  private static void addAttempt(PreparedBatch batch, long id, Heading run) {
    Places<?> places = new Places<>(batch);
    places.put(run.labels().serial()).put(run.labels().order());
    places.put(run.facts().simulated()).put(id).put(run.result().whole());
    batch.add();
  }

  private static void addMeasures(PreparedBatch batch, long id, List<MeasureRow> rows) {
    for (int i = 0; i < rows.size(); i++) {
      MeasureRow row = rows.get(i);
      new Places<>(batch)
          .put(id)
          .put(i + 1L)
          .put(row.kind())
          .put(row.place())
          .put(row.setpointPercent())
          .put(row.truth())
          .put(row.value())
          .put(row.half())
          .put(row.unit())
          .put(row.low())
          .put(row.high())
          .put(row.word().orElse(null));
      batch.add();
    }
  }

  private static void addCauses(PreparedBatch batch, long id, List<CauseRow> rows) {
    for (int i = 0; i < rows.size(); i++) {
      CauseRow row = rows.get(i);
      OptionalDouble probability = OptionalDouble.of(row.probability());
      new Places<>(batch).put(id).put(i + 1L).put(row.cause()).put(probability).put(row.named());
      batch.add();
    }
  }

  private static void addInstruments(PreparedBatch batch, long id, List<InstrumentRow> rows) {
    for (int i = 0; i < rows.size(); i++) {
      InstrumentRow row = rows.get(i);
      new Places<>(batch)
          .put(id)
          .put(i + 1L)
          .put(row.role())
          .put(row.name())
          .put(row.maker())
          .put(row.model())
          .put(row.serial())
          .put(row.certificate())
          .put(row.due());
      batch.add();
    }
  }

  /** Takes a run out of all its tables. */
  static void delete(Handle handle, long id) {
    for (String table : List.of("measure", "cause", "instrument")) {
      handle.execute("DELETE FROM " + table + " WHERE run = ?", id);
    }
    handle.execute(
        "DELETE FROM attempt WHERE serial = (SELECT serial FROM run WHERE id = ?) AND id = ?",
        id,
        id);
    handle.execute("DELETE FROM run WHERE id = ?", id);
  }

  /** A row of the table of runs. */
  static Heading heading(ResultSet row) throws SQLException {
    return new Heading(
        new RecordFile(
            row.getString("digest"),
            row.getString("file"),
            row.getString("folder"),
            row.getLong("bytes"),
            row.getInt("amendments"),
            row.getString("seal"),
            Optional.ofNullable(row.getString("seal_key")),
            row.getInt("flaws"),
            row.getString("judged_from")),
        new Labels(
            row.getString("serial"),
            row.getString("order_no"),
            row.getString("customer"),
            row.getString("operator"),
            Optional.ofNullable(row.getString("tag"))),
        facts(row),
        new Result(
            row.getString("verdict"),
            row.getString("reason"),
            row.getBoolean("whole"),
            row.getBoolean("passed"),
            worst(row)));
  }

  private static Facts facts(ResultSet row) throws SQLException {
    return new Facts(
        Instant.parse(row.getString("begun")),
        Instant.parse(row.getString("ended")),
        row.getString("ending"),
        row.getString("bench"),
        row.getString("place"),
        row.getString("unit_type"),
        row.getString("procedure"),
        row.getString("procedure_version"),
        row.getString("program"),
        row.getBoolean("simulated"),
        row.getBoolean("imported"));
  }

  private static Optional<Worst> worst(ResultSet row) throws SQLException {
    double margin = row.getDouble("worst_margin");
    return row.wasNull()
        ? Optional.empty()
        : Optional.of(new Worst(margin, row.getString("worst_kind"), row.getString("worst_place")));
  }

  static OptionalDouble number(ResultSet row, String column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** A row of the table of measures. */
  static MeasureRow measure(ResultSet row) throws SQLException {
    return new MeasureRow(
        row.getString("kind"),
        row.getString("place"),
        number(row, "setpoint_pct"),
        row.getString("truth"),
        number(row, "value"),
        number(row, "u"),
        row.getString("unit"),
        number(row, "limit_low"),
        number(row, "limit_high"),
        Optional.ofNullable(row.getString("word")));
  }
}
