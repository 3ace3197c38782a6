package org.benchstroke.archive;

import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Where an archive is. Its text is for people and never holds a password. Immutable. */
public sealed interface ArchivePlace {
  /** What an archive beside records is called. */
  String USUAL_NAME = "archive.sqlite";

  /** The archive beside the records of a folder. */
  static ArchivePlace beside(Path records) {
    return new InFile(records.resolve(USUAL_NAME));
  }

  /**
   * By what a person typed: a file, or {@code postgresql://user@host:port/database}.
   *
   * @throws ArchiveFault if it is neither
   */
  static ArchivePlace of(String text) throws ArchiveFault {
    if (text.contains("://")) {
      return OnServer.of(text);
    }
    try {
      return new InFile(Path.of(text));
    } catch (InvalidPathException e) {
      throw new ArchiveFault(text + ": is no name of a file");
    }
  }

  /**
   * One file of SQLite.
   *
   * @param file the file; it need not be there yet
   */
  record InFile(Path file) implements ArchivePlace {
    @Override
    public String toString() {
      return file.toString();
    }
  }

  /**
   * A database of a PostgreSQL server.
   *
   * @param host name or address
   * @param port 1 to 65535
   * @param database its name
   * @param user empty for the user of this computer
   * @param options settings of the connection, of those that are allowed
   */
  record OnServer(
      String host, int port, String database, Optional<String> user, Map<String, String> options)
      implements ArchivePlace {
    private static final String SHAPE = "postgresql://user@host:port/database";
    private static final int USUAL_PORT = 5432;

    /** How the server is known and the line protected: nothing that a secret stands in. */
    private static final Set<String> ALLOWED = Set.of("sslmode", "sslrootcert");

    public OnServer {
      options = Map.copyOf(options);
    }

    private static OnServer of(String text) throws ArchiveFault {
      URI uri;
      try {
        uri = new URI(text);
      } catch (URISyntaxException e) {
        throw new ArchiveFault("an archive on a server is written " + SHAPE);
      }
      Optional<String> user = Optional.ofNullable(uri.getUserInfo());
      if (user.isPresent() && user.get().contains(":")) {
        throw new ArchiveFault(
            "the archive's password doesn't belong on a command line, where others can read it; give"
                + " it in PGPASSWORD or in .pgpass in your home, and write "
                + SHAPE);
      }
      String database = Optional.ofNullable(uri.getPath()).orElse("").replaceFirst("^/", "");
      boolean known = Set.of("postgresql", "postgres").contains(uri.getScheme());
      if (!known || uri.getHost() == null || database.isEmpty() || database.contains("/")) {
        throw new ArchiveFault(shown(uri) + ": is no archive; allowed are a file and " + SHAPE);
      }
      int port = uri.getPort() < 0 ? USUAL_PORT : uri.getPort();
      return new OnServer(uri.getHost(), port, database, user, options(uri));
    }

    private static Map<String, String> options(URI uri) throws ArchiveFault {
      Map<String, String> options = new LinkedHashMap<>();
      String query = Optional.ofNullable(uri.getQuery()).orElse("");
      for (String each : query.split("&", -1)) {
        int at = each.indexOf('=');
        String key = at < 0 ? each : each.substring(0, at);
        if (!query.isEmpty() && (at < 0 || !ALLOWED.contains(key))) {
          throw new ArchiveFault(
              shown(uri)
                  + ": found the setting \""
                  + key
                  + "\", allowed are "
                  + ALLOWED.stream().sorted().collect(Collectors.joining(", ")));
        }
        if (!query.isEmpty()) {
          options.put(key, each.substring(at + 1));
        }
      }
      return options;
    }

    private static String shown(URI uri) {
      return uri.getScheme() + "://" + Optional.ofNullable(uri.getAuthority()).orElse("");
    }

    @Override
    public String toString() {
      return "postgresql://"
          + user.map(name -> name + "@").orElse("")
          + host
          + ":"
          + port
          + "/"
          + database;
    }
  }
}
