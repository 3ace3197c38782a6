package org.benchstroke.archive;

import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/** The rows of benches' own checks. Stateless. */
final class CheckRows {
  private static final String INSERT =
      "INSERT INTO bench_check (digest, folder, bench, simulated, at, person, source, note,"
          + " new_baseline, amends, line) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
          + " ON CONFLICT DO NOTHING";

  private CheckRows() {}

  /** Adds what is not there; gives how many were not. */
  static int add(Handle handle, List<ArchivedCheck> checks) {
    int added = 0;
    for (ArchivedCheck check : checks) {
      int fresh =
          handle.execute(
              INSERT,
              check.digest(),
              check.folder(),
              check.bench(),
              check.simulated(),
              RunRows.stamp(check.at()),
              check.person(),
              check.from(),
              check.note(),
              check.newBaseline(),
              check.amends().orElse(null),
              check.line());
      added += fresh;
      if (fresh > 0) {
        check
            .readings()
            .forEach(
                (reference, value) ->
                    handle.execute(
                        "INSERT INTO bench_reading (digest, reference, value) VALUES (?, ?, ?)",
                        check.digest(),
                        reference,
                        value));
      }
    }
    return added;
  }

  /** The lines of a bench, or of all, in the order of time. */
  static List<String> lines(Handle handle, Optional<String> bench, boolean simulated) {
    String only = bench.isPresent() ? " AND bench = :bench" : "";
    var query =
        handle
            .createQuery(
                "SELECT line FROM bench_check WHERE simulated = :simulated"
                    + only
                    + " ORDER BY at, digest")
            .bind("simulated", simulated);
    bench.ifPresent(name -> query.bind("bench", name));
    return query.mapTo(String.class).list();
  }

  /** The names of benches that were checked. */
  static List<String> benches(Handle handle, boolean simulated) {
    return handle
        .createQuery(
            "SELECT DISTINCT bench FROM bench_check WHERE simulated = :simulated ORDER BY bench")
        .bind("simulated", simulated)
        .mapTo(String.class)
        .list();
  }
}
