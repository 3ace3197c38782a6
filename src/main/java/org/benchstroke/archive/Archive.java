package org.benchstroke.archive;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import javax.sql.DataSource;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;

/**
 * An archive that is open. What it is asked is answered by its tables alone; no record is read. Any
 * thread. Every method throws {@link ArchiveFault} if the database can't be used.
 */
public final class Archive implements AutoCloseable {
  /** So often a run is tried again when another program was in the way. */
  private static final int TRIES = 20;

  private final ArchivePlace place;
  private final DataSource source;
  private final Jdbi jdbi;
  private final boolean onServer;
  private final Partitions partitions = new Partitions();

  private Archive(ArchivePlace place, DataSource source) {
    this.place = place;
    this.source = source;
    this.jdbi = Jdbi.create(source);
    this.onServer = place instanceof ArchivePlace.OnServer;
  }

  /** What became of a run that was added. */
  public enum Added {
    /** It was not there. */
    NEW,
    /** It was there, and its labels, its seal or its place have changed. */
    UPDATED,
    /** Another record of the same name and begin stood there, whose bytes were others. */
    REPLACED,
    /** It was there already. */
    UNCHANGED
  }

  /** Opens an archive, and makes it if there is none. */
  public static Archive open(ArchivePlace place) throws ArchiveFault {
    return open(place, Connections.BUSY_MILLIS);
  }

  /** Likewise, waiting so long for another program that writes to its file, ms. */
  static Archive open(ArchivePlace place, int busyMillis) throws ArchiveFault {
    if (place instanceof ArchivePlace.InFile in && !Files.exists(in.file())) {
      make(in);
    }
    return opened(place, true, busyMillis);
  }

  /** Opens an archive that is there. */
  public static Archive existing(ArchivePlace place) throws ArchiveFault {
    if (place instanceof ArchivePlace.InFile in && !Files.exists(in.file())) {
      throw none(place);
    }
    return opened(place, false, Connections.BUSY_MILLIS);
  }

  private static ArchiveFault none(ArchivePlace place) {
    return new ArchiveFault(
        "there is no archive " + place + " yet; make it from the records: archive rebuild");
  }

  private static Archive opened(ArchivePlace place, boolean mayMake, int busyMillis)
      throws ArchiveFault {
    DataSource source = source(place, true, busyMillis);
    try {
      boolean onServer = place instanceof ArchivePlace.OnServer;
      Optional<Integer> version = Schema.version(source, onServer);
      if (version.isPresent() && version.get() > Schema.VERSION) {
        throw new ArchiveFault(
            "the archive "
                + place
                + " was written by a newer version of this program (its tables are of version "
                + version.get()
                + ", this one knows "
                + Schema.VERSION
                + "); update this program, or name another archive");
      }
      if (version.isEmpty() && !mayMake) {
        throw none(place);
      }
      if (version.isEmpty() && !onServer) {
        requireEmpty(place, source);
      }
      if (version.isEmpty() || version.get() < Schema.VERSION) {
        Schema.bringUp(source, onServer);
      }
      return new Archive(place, source);
    } catch (SQLException | FlywayException e) {
      close(source);
      throw Faults.of(place, e);
    } catch (ArchiveFault e) {
      close(source);
      throw e;
    }
  }

  private static void requireEmpty(ArchivePlace place, DataSource source)
      throws SQLException, ArchiveFault {
    try (Connection connection = source.getConnection();
        Statement statement = connection.createStatement();
        ResultSet found = statement.executeQuery("SELECT count(*) FROM sqlite_master")) {
      if (found.next() && found.getInt(1) > 0) {
        throw new ArchiveFault(
            "the archive " + place + " is a database of another program; name another file");
      }
    }
  }

  private static DataSource source(ArchivePlace place, boolean safe, int busyMillis)
      throws ArchiveFault {
    try {
      if (place instanceof ArchivePlace.OnServer server) {
        return Connections.toServer(server);
      }
      return Connections.toFile(((ArchivePlace.InFile) place).file(), safe, busyMillis);
    } catch (RuntimeException | LinkageError e) {
      throw Faults.of(place, e);
    }
  }

  /** A new file appears whole, with its tables, or not at all. */
  private static void make(ArchivePlace.InFile place) throws ArchiveFault {
    Path draft = draft(place);
    try {
      Files.createDirectories(draft.getParent());
      DataSource source = source(new ArchivePlace.InFile(draft), false, Connections.BUSY_MILLIS);
      Schema.bringUp(source, false);
      install(draft, place.file());
    } catch (SQLException | FlywayException e) {
      throw Faults.of(place, e);
    } catch (IOException e) {
      throw Faults.unwritable(place, e);
    } finally {
      forget(draft);
    }
  }

  /** Where a new file is made, beside its place. */
  static Path draft(ArchivePlace.InFile place) {
    Path folder = place.file().toAbsolutePath().getParent();
    return folder.resolve("." + UUID.randomUUID() + ".draft");
  }

  /** Puts a new database in its place; one that is there already is as good. */
  private static void install(Path draft, Path file) throws IOException {
    keep(draft);
    try {
      Files.createLink(file, draft);
    } catch (FileAlreadyExistsException e) {
      return; // Another program was faster.
    } catch (IOException | UnsupportedOperationException e) {
      moved(draft, file);
    }
  }

  /** Where the disk knows no links: a memory stick, some shares. */
  private static void moved(Path draft, Path file) throws IOException {
    try {
      Files.move(draft, file);
    } catch (FileAlreadyExistsException e) {
      return; // Likewise: it stays, and the draft goes.
    }
  }

  /** Has the disk keep a file. */
  private static void keep(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /**
   * Puts a new database in the place of one that may be there. Nobody writes to that meanwhile, and
   * no journal of it stays that would be taken for one of the new.
   */
  static void replace(Path draft, ArchivePlace.InFile place) throws ArchiveFault, IOException {
    keep(draft);
    if (!Files.exists(place.file())) {
      Files.move(draft, place.file(), StandardCopyOption.ATOMIC_MOVE);
      return;
    }
    DataSource old = source(place, true, Connections.BUSY_MILLIS);
    try (Connection connection = old.getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute("BEGIN EXCLUSIVE");
      Files.move(draft, place.file(), StandardCopyOption.ATOMIC_MOVE);
      statement.execute("ROLLBACK");
    } catch (SQLException e) {
      ArchiveFault fault = Faults.of(place, e);
      if (fault.kind() != ArchiveFault.Kind.DAMAGED) {
        throw fault;
      }
      for (String end : List.of("-journal", "-wal", "-shm")) {
        Files.deleteIfExists(place.file().resolveSibling(place.file().getFileName() + end));
      }
      Files.move(draft, place.file(), StandardCopyOption.ATOMIC_MOVE);
    }
  }

  static void forget(Path draft) {
    try {
      Files.deleteIfExists(draft);
      Files.deleteIfExists(draft.resolveSibling(draft.getFileName() + "-journal"));
    } catch (IOException e) {
      // A hidden file more; nothing depends on it.
      return;
    }
  }

  /**
   * A new database in a file that nobody else uses yet: fast, and nothing is lost with it.
   *
   * @param place where it will be, for messages
   */
  static Archive drafted(Path draft, ArchivePlace place) throws ArchiveFault {
    DataSource source = source(new ArchivePlace.InFile(draft), false, Connections.BUSY_MILLIS);
    try {
      Schema.bringUp(source, false);
      return new Archive(place, source);
    } catch (SQLException | FlywayException e) {
      throw Faults.of(place, e);
    }
  }

  /** Where it is. */
  public ArchivePlace place() {
    return place;
  }

  /** Whether it is on a server, which other benches write to as well. */
  public boolean onServer() {
    return onServer;
  }

  @Override
  public void close() {
    close(source);
  }

  private static void close(DataSource source) {
    if (source instanceof HikariDataSource pool) {
      pool.close();
    }
  }

  /** A question. */
  interface Asked<T> {
    T by(Handle handle);
  }

  /** Asks it. */
  <T> T ask(Asked<T> asked) throws ArchiveFault {
    try (Handle handle = jdbi.open()) {
      return asked.by(handle);
    } catch (JdbiException e) {
      throw Faults.of(place, e);
    }
  }

  /** Adds a run, or brings what is there up to it. The same run twice is there once. */
  public Added add(ArchivedRun run) throws ArchiveFault {
    return addAll(List.of(run), false).get(0);
  }

  /**
   * Adds runs, all or none.
   *
   * @param anew whether what seems unchanged is written again
   * @return what became of each
   */
  public List<Added> addAll(List<ArchivedRun> runs, boolean anew) throws ArchiveFault {
    for (int left = TRIES; ; left--) {
      try (Handle handle = jdbi.open()) {
        if (onServer) {
          runs.forEach(run -> partitions.provide(handle, run.facts().begun()));
        }
        return handle.inTransaction(transaction -> new Adding(transaction, anew).all(runs));
      } catch (JdbiException e) {
        if (left <= 1 || !Faults.isPassing(e)) {
          throw Faults.of(place, e);
        }
      }
    }
  }

  /** Adds checks of benches; one that is there is left as it is. Gives how many were not there. */
  public int addChecks(List<ArchivedCheck> checks) throws ArchiveFault {
    for (int left = TRIES; ; left--) {
      try (Handle handle = jdbi.open()) {
        return handle.inTransaction(transaction -> CheckRows.add(transaction, checks));
      } catch (JdbiException e) {
        if (left <= 1 || !Faults.isPassing(e)) {
          throw Faults.of(place, e);
        }
      }
    }
  }

  /**
   * The lines of a bench's own checks, as its files hold them, in the order of time.
   *
   * @param bench its name
   */
  public List<String> checksOf(String bench, boolean simulated) throws ArchiveFault {
    return ask(handle -> CheckRows.lines(handle, Optional.of(bench), simulated));
  }

  /** The names of benches that were checked, in order. */
  public List<String> benchesChecked(boolean simulated) throws ArchiveFault {
    return ask(handle -> CheckRows.benches(handle, simulated));
  }

  /** How many runs there are. */
  public long count() throws ArchiveFault {
    return ask(h -> h.createQuery("SELECT count(*) FROM run").mapTo(Long.class).one());
  }

  /** The newest runs that are asked for, the newest first, so many at most. */
  public List<Heading> runs(RunFilter filter, int most) throws ArchiveFault {
    return runs(filter, most, 0);
  }

  /**
   * Likewise, a page further on.
   *
   * @param skip so many newer ones are left out
   */
  public List<Heading> runs(RunFilter filter, int most, int skip) throws ArchiveFault {
    return ask(handle -> Questions.runs(handle, filter, most, skip));
  }

  /**
   * The runs whose record's digest begins like this; usually one or none.
   *
   * @param beginning hexadecimal digits, in small letters
   */
  public List<Heading> byDigest(String beginning) throws ArchiveFault {
    return ask(handle -> Questions.byDigest(handle, beginning));
  }

  /**
   * The names that stand in it, for a person to choose from.
   *
   * @param unitTypes of unit types
   * @param benches of benches
   * @param operators of who ran tests
   */
  public record Names(List<String> unitTypes, List<String> benches, List<String> operators) {}

  /** The names that stand in it. */
  public Names names() throws ArchiveFault {
    return ask(
        handle ->
            new Names(
                Questions.names(handle, "unit_type"),
                Questions.names(handle, "bench"),
                Questions.names(handle, "operator")));
  }

  /** The newest jobs with a run that is asked for, the newest first, so many at most. */
  public List<JobLine> jobs(RunFilter filter, int most) throws ArchiveFault {
    return jobs(filter, most, 0);
  }

  /**
   * Likewise, a page further on.
   *
   * @param skip so many newer ones are left out
   */
  public List<JobLine> jobs(RunFilter filter, int most, int skip) throws ArchiveFault {
    return ask(handle -> Questions.jobs(handle, filter, most, skip));
  }

  /** First-pass yield by unit type, of the jobs whose first whole run is asked for. */
  public List<YieldLine> yields(RunFilter filter) throws ArchiveFault {
    return ask(handle -> Questions.yields(handle, filter));
  }

  /** The measures of a run, in the order of its report. */
  public List<MeasureRow> measures(String sha256) throws ArchiveFault {
    return ask(handle -> Questions.measures(handle, sha256));
  }

  /** What there is of a folder, from this name on: name and heading. */
  Map<String, Heading> ofFolder(String folder, String from) throws ArchiveFault {
    return ask(handle -> Questions.ofFolder(handle, folder, from));
  }

  /** The digests of all runs, and the benches they are of. */
  Map<String, String> benchesByDigest() throws ArchiveFault {
    return ask(Questions::benchesByDigest);
  }

  /** Takes runs out whose records are gone. */
  void remove(List<String> digests) throws ArchiveFault {
    ask(
        handle ->
            handle.inTransaction(
                transaction -> {
                  digests.forEach(each -> Questions.remove(transaction, each));
                  return digests.size();
                }));
  }

  /** How the database goes about the questions that matter, for people: a line each. */
  public Map<String, List<String>> plans(RunFilter serial, RunFilter day, RunFilter years)
      throws ArchiveFault {
    return ask(handle -> Questions.plans(handle, onServer, serial, day, years));
  }

  /** What it is: version of its tables, runs, times of the first and the last. */
  public ArchiveState state() throws ArchiveFault {
    return ask(Questions::state);
  }

  /** Has the database look at what it holds, so that it finds the shortest way to it. */
  public void analyse() throws ArchiveFault {
    ask(handle -> handle.execute("ANALYZE"));
  }
}
