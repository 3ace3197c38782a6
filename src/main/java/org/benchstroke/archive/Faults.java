package org.benchstroke.archive;

import java.io.IOException;
import java.net.UnknownHostException;
import java.nio.file.AccessDeniedException;
import java.sql.SQLException;
import java.util.Optional;
import org.postgresql.util.PSQLException;
import org.sqlite.SQLiteException;

/** What went wrong with a database, in a line that says what to do. Stateless. */
final class Faults {
  private Faults() {}

  /** Whatever a library wrapped it in. */
  static ArchiveFault of(ArchivePlace place, Throwable thrown) {
    Optional<SQLException> sql = sql(thrown);
    String why =
        sql.isEmpty()
            ? "failed: " + firstLine(thrown)
            : sql.get() instanceof SQLiteException lite
                ? ofFile(lite)
                : place instanceof ArchivePlace.OnServer server
                    ? ofServer(server, sql.get())
                    : "failed: " + firstLine(sql.get());
    ArchiveFault.Kind kind =
        sql.isPresent() && sql.get() instanceof SQLiteException lite && isSpoilt(lite)
            ? ArchiveFault.Kind.DAMAGED
            : ArchiveFault.Kind.FAILED;
    return new ArchiveFault(kind, "the archive " + place + " " + why, thrown);
  }

  /** Its file could not be made or put in its place. */
  static ArchiveFault unwritable(ArchivePlace place, IOException e) {
    String why =
        e instanceof AccessDeniedException
            ? "folder or file is write-protected"
            : Optional.ofNullable(e.getMessage()).orElse(e.getClass().getSimpleName());
    return new ArchiveFault(
        ArchiveFault.Kind.FAILED, "the archive " + place + " can't be written: " + why, e);
  }

  private static boolean isSpoilt(SQLiteException e) {
    return switch (e.getResultCode()) {
      case SQLITE_NOTADB,
          SQLITE_CORRUPT,
          SQLITE_CORRUPT_VTAB,
          SQLITE_CORRUPT_SEQUENCE,
          SQLITE_CORRUPT_INDEX ->
          true;
      default -> false;
    };
  }

  /** Whether the same may go well if it is done again: two programs were in each other's way. */
  static boolean isPassing(Throwable thrown) {
    return sql(thrown)
        .map(SQLException::getSQLState)
        .filter(state -> state.startsWith("40") || state.equals("23505") || state.equals("42P07"))
        .isPresent();
  }

  private static Optional<SQLException> sql(Throwable thrown) {
    Optional<SQLException> found = Optional.empty();
    for (Throwable each = thrown; each != null; each = each.getCause()) {
      if (each instanceof SQLiteException || each instanceof PSQLException) {
        return Optional.of((SQLException) each);
      }
      if (each instanceof SQLException sql) {
        found = Optional.of(sql);
      }
    }
    return found;
  }

  private static String ofFile(SQLiteException e) {
    return switch (e.getResultCode()) {
      case SQLITE_NOTADB -> "is not a database; name another file with --archive";
      case SQLITE_CORRUPT, SQLITE_CORRUPT_VTAB, SQLITE_CORRUPT_SEQUENCE, SQLITE_CORRUPT_INDEX ->
          "is damaged; make it again from the records: archive rebuild";
      case SQLITE_BUSY,
          SQLITE_BUSY_RECOVERY,
          SQLITE_BUSY_SNAPSHOT,
          SQLITE_BUSY_TIMEOUT,
          SQLITE_LOCKED,
          SQLITE_LOCKED_SHAREDCACHE ->
          "is locked by another program; try again when that has ended";
      case SQLITE_READONLY,
          SQLITE_READONLY_DBMOVED,
          SQLITE_READONLY_DIRECTORY,
          SQLITE_READONLY_ROLLBACK,
          SQLITE_PERM,
          SQLITE_AUTH ->
          "can't be written: file or folder is write-protected";
      case SQLITE_FULL -> "can't be written: the disk is full";
      case SQLITE_CANTOPEN, SQLITE_CANTOPEN_ISDIR, SQLITE_CANTOPEN_NOTEMPDIR ->
          "can't be opened; check its name, its folder and who may read it";
      default -> "failed: " + firstLine(e);
    };
  }

  private static String ofServer(ArchivePlace.OnServer server, SQLException e) {
    String state = Optional.ofNullable(e.getSQLState()).orElse("");
    if (state.equals("28P01") || state.equals("28000") || asksForPassword(e)) {
      return "was refused: user or password is wrong or missing; give the password in PGPASSWORD or"
          + " in .pgpass in your home";
    }
    if (state.equals("3D000")) {
      return "is not there: the server has no database \""
          + server.database()
          + "\"; make it with createdb";
    }
    if (state.equals("42501")) {
      return "was refused: " + firstLine(e) + "; ask its owner for the permission";
    }
    if (state.equals("57P03") || state.equals("57P01")) {
      return "can't be reached: the server is starting or stopping; try again";
    }
    if (state.startsWith("08")) {
      return "can't be reached: "
          + (unknownHost(e) ? "there is no host \"" + server.host() + "\"" : "no answer")
          + "; check host and port, and that the server runs";
    }
    return "failed: " + firstLine(e);
  }

  private static boolean asksForPassword(SQLException e) {
    return firstLine(e).contains("no password was provided");
  }

  private static boolean unknownHost(Throwable e) {
    for (Throwable each = e; each != null; each = each.getCause()) {
      if (each instanceof UnknownHostException) {
        return true;
      }
    }
    return false;
  }

  private static String firstLine(Throwable e) {
    String message = Optional.ofNullable(e.getMessage()).orElse(e.getClass().getSimpleName());
    return message.strip().lines().findFirst().orElse("");
  }
}
