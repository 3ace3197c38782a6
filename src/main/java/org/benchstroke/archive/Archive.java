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
import java.time.Instant;
import java.util.HashMap;
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
      install(draft, place.file(), false);
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

  /** Puts a database whose program has let go of it in its place. */
  static void install(Path draft, Path file, boolean replace) throws IOException {
    try (FileChannel channel = FileChannel.open(draft, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
    if (replace) {
      Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE);
      return;
    }
    try {
      Files.createLink(file, draft);
    } catch (FileAlreadyExistsException e) {
      return; // Another program was faster; its archive is as good.
    } catch (IOException | UnsupportedOperationException e) {
      Files.move(draft, file);
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
        return handle.inTransaction(
            transaction -> runs.stream().map(run -> add(transaction, run, anew)).toList());
      } catch (JdbiException e) {
        if (left <= 1 || !Faults.isPassing(e)) {
          throw Faults.of(place, e);
        }
      }
    }
  }

  private static Added add(Handle handle, ArchivedRun run, boolean anew) {
    Instant begun = run.facts().begun();
    long first = RunId.first(begun);
    Map<Long, Heading> near =
        handle
            .createQuery("SELECT * FROM run WHERE id BETWEEN :first AND :last")
            .bind("first", first)
            .bind("last", first + RunId.ROOM - 1)
            .reduceResultSet(
                new HashMap<Long, Heading>(),
                (all, row, context) -> {
                  all.put(row.getLong("id"), RunRows.heading(row));
                  return all;
                });
    Optional<Long> same = idOf(near, run);
    Optional<Long> other = same.isPresent() ? Optional.empty() : placeOf(near, run);
    if (same.isPresent() && !anew && isUnchanged(near.get(same.get()), run.heading())) {
      return Added.UNCHANGED;
    }
    same.or(() -> other).ifPresent(id -> RunRows.delete(handle, id));
    long id = same.or(() -> other).orElseGet(() -> free(near, run));
    RunRows.insert(handle, id, run);
    return same.isPresent() ? Added.UPDATED : other.isPresent() ? Added.REPLACED : Added.NEW;
  }

  /** A record that was copied is where it was; from what it was judged makes no difference. */
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

  /** How many runs there are. */
  public long count() throws ArchiveFault {
    return ask(h -> h.createQuery("SELECT count(*) FROM run").mapTo(Long.class).one());
  }

  /** The newest runs that are asked for, the newest first, so many at most. */
  public List<Heading> runs(RunFilter filter, int most) throws ArchiveFault {
    return ask(handle -> Questions.runs(handle, filter, most));
  }

  /** The newest jobs with a run that is asked for, the newest first, so many at most. */
  public List<JobLine> jobs(RunFilter filter, int most) throws ArchiveFault {
    return ask(handle -> Questions.jobs(handle, filter, most));
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
