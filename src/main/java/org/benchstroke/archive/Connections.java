package org.benchstroke.archive;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javax.sql.DataSource;
import org.benchstroke.core.files.PrivateFolder;
import org.postgresql.ds.PGSimpleDataSource;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/** Ways to a database, without asking every driver on the class path whose it is. Stateless. */
final class Connections {
  /** The schema on a server, so that other tables of the shop's database are left alone. */
  static final String SCHEMA = "benchstroke";

  /** How long a file that another program is writing to is waited for, ms. */
  static final int BUSY_MILLIS = 10_000;

  private static final int CONNECT_SECONDS = 5;

  /** The longest wait for an answer; a list of everything may take a while. */
  private static final int ANSWER_SECONDS = 60;

  /** A program asks from one thread or two. */
  private static final int MOST_CONNECTIONS = 4;

  private static final String NATIVE_FOLDER = "org.sqlite.tmpdir";

  private Connections() {}

  /**
   * To a file of SQLite.
   *
   * @param safe whether a commit waits for the disk; without it a crash may spoil the file
   * @param busyMillis how long it waits while another program writes, ms
   */
  static DataSource toFile(Path file, boolean safe, int busyMillis) {
    keepNativePartPrivate();
    SQLiteConfig config = new SQLiteConfig();
    config.enforceForeignKeys(true);
    config.setBusyTimeout(busyMillis);
    // Whoever writes says so first: two that both began by reading would wait for each other.
    config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    config.setSynchronous(
        safe ? SQLiteConfig.SynchronousMode.FULL : SQLiteConfig.SynchronousMode.OFF);
    if (Files.exists(file) && !Files.isWritable(file)) {
      config.setReadOnly(true);
    }
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl("jdbc:sqlite:" + file.toAbsolutePath());
    return source;
  }

  private static synchronized void keepNativePartPrivate() {
    if (System.getProperty(NATIVE_FOLDER) == null) {
      try {
        System.setProperty(NATIVE_FOLDER, PrivateFolder.of().toString());
      } catch (IOException e) {
        // Then the driver says why it can't be loaded, or takes its usual place.
        return;
      }
    }
  }

  /** To a server; closed with what is given. Throws what Hikari throws if it can't be reached. */
  static HikariDataSource toServer(ArchivePlace.OnServer server) {
    HikariConfig pool = new HikariConfig();
    pool.setDataSource(driver(server));
    pool.setPoolName("archive");
    pool.setMaximumPoolSize(MOST_CONNECTIONS);
    pool.setMinimumIdle(0);
    pool.setConnectionTimeout(2_000L * CONNECT_SECONDS);
    return new HikariDataSource(pool);
  }

  /** The driver itself, which makes a new connection each time. */
  static DataSource driver(ArchivePlace.OnServer server) {
    PGSimpleDataSource source = new PGSimpleDataSource();
    source.setServerNames(new String[] {server.host()});
    source.setPortNumbers(new int[] {server.port()});
    source.setDatabaseName(server.database());
    source.setUser(server.user().orElseGet(() -> System.getProperty("user.name")));
    // Without it the driver looks into .pgpass itself.
    Optional.ofNullable(System.getenv("PGPASSWORD")).ifPresent(source::setPassword);
    Optional.ofNullable(server.options().get("sslmode")).ifPresent(source::setSslMode);
    Optional.ofNullable(server.options().get("sslrootcert")).ifPresent(source::setSslRootCert);
    source.setCurrentSchema(SCHEMA);
    source.setConnectTimeout(CONNECT_SECONDS);
    source.setLoginTimeout(2 * CONNECT_SECONDS);
    source.setSocketTimeout(ANSWER_SECONDS);
    source.setReWriteBatchedInserts(true);
    source.setApplicationName("benchstroke");
    return source;
  }
}
