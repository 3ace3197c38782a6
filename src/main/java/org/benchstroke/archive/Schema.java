package org.benchstroke.archive;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Map;
import java.util.Optional;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.configuration.FluentConfiguration;

/**
 * The tables of an archive and their version. Asking for it is one SELECT; Flyway, which takes a
 * second to start, is touched only where the version is behind. Stateless.
 */
final class Schema {
  /** The version that this program reads and writes: the number of the newest migration. */
  static final int VERSION = 3;

  private static final String FOLDER = "classpath:org/benchstroke/archive/schema";
  private static final String HISTORY = "flyway_schema_history";
  private static final int TRIES = 3;

  private static final Map<String, String> IN_FILE =
      Map.of("id", "INTEGER", "runs", "", "parts", "WITHOUT ROWID", "attempts", "WITHOUT ROWID");
  private static final Map<String, String> ON_SERVER =
      Map.of(
          "id",
          "BIGINT",
          "runs",
          "PARTITION BY RANGE (id)",
          "parts",
          "PARTITION BY RANGE (run)",
          "attempts",
          "");

  private Schema() {}

  /**
   * The version of the tables that are there; empty if there are none of ours.
   *
   * @throws SQLException if it can't be asked for
   */
  static Optional<Integer> version(DataSource source, boolean onServer) throws SQLException {
    String there =
        onServer
            ? "SELECT count(*) FROM information_schema.tables WHERE table_schema = '"
                + Connections.SCHEMA
                + "' AND table_name = ?"
            : "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = ?";
    try (Connection connection = source.getConnection();
        PreparedStatement tables = connection.prepareStatement(there)) {
      tables.setString(1, HISTORY);
      try (ResultSet found = tables.executeQuery()) {
        if (!found.next() || found.getInt(1) == 0) {
          return Optional.empty();
        }
      }
      return newest(connection);
    }
  }

  private static Optional<Integer> newest(Connection connection) throws SQLException {
    try (PreparedStatement newest =
            connection.prepareStatement(
                "SELECT max(CAST(version AS INTEGER)) FROM " + HISTORY + " WHERE success");
        ResultSet found = newest.executeQuery()) {
      int version = found.next() ? found.getInt(1) : 0;
      return version > 0 ? Optional.of(version) : Optional.empty();
    }
  }

  /**
   * Makes the tables, or brings them up to this program's version.
   *
   * @throws SQLException if it can't be asked how far that went
   * @throws FlywayException if it can't be done
   */
  static void bringUp(DataSource source, boolean onServer) throws SQLException {
    FluentConfiguration flyway =
        Flyway.configure()
            .dataSource(source)
            .locations(FOLDER)
            .table(HISTORY)
            .placeholders(onServer ? ON_SERVER : IN_FILE);
    if (onServer) {
      flyway.schemas(Connections.SCHEMA).defaultSchema(Connections.SCHEMA);
    }
    for (int left = TRIES; ; left--) {
      try {
        flyway.load().migrate();
        return;
      } catch (FlywayException e) {
        // Another program may have been at it at the same moment.
        if (version(source, onServer).equals(Optional.of(VERSION))) {
          return;
        }
        if (left <= 1 || !Faults.isPassing(e)) {
          throw e;
        }
      }
    }
  }
}
