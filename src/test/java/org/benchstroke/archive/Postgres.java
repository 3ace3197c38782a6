package org.benchstroke.archive;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.benchstroke.DebianProgram;

/**
 * Debian's PostgreSQL with a cluster of its own in a temporary folder, on a free port of this
 * machine. It refuses to run as root: then it runs as the user that its package makes.
 */
public final class Postgres {
  static final String USER = "keeper";
  static final String PASSWORD = "made-up:word";
  private static final Path VERSIONS = Path.of("/usr/lib/postgresql");
  private static final int LONGEST_SECONDS = 60;

  private final Path programs;
  private final Path folder;
  private final int port;
  private int databases;

  private Postgres(Path programs, Path folder, int port) {
    this.programs = programs;
    this.folder = folder;
    this.port = port;
  }

  /** Starts one; the test is skipped where it is not installed, but fails where it must be. */
  public static Postgres start() throws IOException, InterruptedException {
    DebianProgram.requireFile("postgresql", VERSIONS);
    Path programs = newest().resolve("bin");
    Path folder = Files.createTempDirectory("postgres-of-a-test");
    int port;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    Postgres server = new Postgres(programs, folder, port);
    Path word = Files.writeString(folder.resolve("word"), PASSWORD + "\n");
    if (isRoot()) {
      run(List.of("chown", "-R", "postgres", folder.toString()));
    }
    server.program(
        "initdb",
        "--no-sync",
        "--encoding=UTF8",
        "--locale=C.UTF-8",
        "--auth=scram-sha-256",
        "--username=" + USER,
        "--pwfile=" + word,
        "--pgdata=" + server.data());
    server.goOn();
    server.tellPassword();
    return server;
  }

  private static Path newest() throws IOException {
    try (Stream<Path> versions = Files.list(VERSIONS)) {
      return versions
          .max(Comparator.comparingInt(v -> Integer.parseInt(v.getFileName().toString())))
          .orElseThrow();
    }
  }

  private static boolean isRoot() {
    return System.getProperty("user.name").equals("root");
  }

  private Path data() {
    return folder.resolve("data");
  }

  /** As a person does it: in the file that the driver and all other programs look into. */
  private void tellPassword() throws IOException {
    Path file = Files.createTempFile("passwords", "");
    file.toFile().deleteOnExit();
    Files.writeString(file, "*:*:*:" + USER + ":" + PASSWORD.replace(":", "\\:") + "\n");
    file.toFile().setReadable(false, false);
    file.toFile().setReadable(true, true);
    System.setProperty("org.postgresql.pgpassfile", file.toString());
  }

  /** A database that nobody has used yet. */
  public ArchivePlace.OnServer database() throws IOException, InterruptedException {
    String name = "archive" + databases++;
    run(
        Map.of("PGPASSWORD", PASSWORD),
        List.of(
            programs.resolve("createdb").toString(),
            "--host=127.0.0.1",
            "--port=" + port,
            "--username=" + USER,
            name));
    return place(name);
  }

  ArchivePlace.OnServer place(String database) {
    return new ArchivePlace.OnServer("127.0.0.1", port, database, Optional.of(USER), Map.of());
  }

  /** Stops it as a reboot does: whoever is connected is cut off. */
  void stop() throws IOException, InterruptedException {
    program("pg_ctl", "stop", "--mode=fast", "--pgdata=" + data(), "--wait");
  }

  /** Starts it, the first time or after that. */
  void goOn() throws IOException, InterruptedException {
    program(
        "pg_ctl",
        "start",
        "--pgdata=" + data(),
        "--log=" + folder.resolve("log"),
        "--wait",
        "--options=-p "
            + port
            + " -c listen_addresses=127.0.0.1 -c fsync=off -c max_connections=60"
            + " -c unix_socket_directories=''");
  }

  /** Stops it and takes its folder away. */
  public void close() throws IOException, InterruptedException {
    stop();
    run(List.of("rm", "-rf", folder.toString()));
  }

  private void program(String name, String... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    if (isRoot()) {
      command.addAll(List.of("runuser", "-u", "postgres", "--"));
    }
    command.add(programs.resolve(name).toString());
    command.addAll(List.of(arguments));
    run(command);
  }

  private static void run(List<String> command) throws IOException, InterruptedException {
    run(Map.of(), command);
  }

  private static void run(Map<String, String> environment, List<String> command)
      throws IOException, InterruptedException {
    // To a file: the server that pg_ctl starts would hold a pipe open.
    Path said = Files.createTempFile("said", "");
    ProcessBuilder builder = new ProcessBuilder(command).directory(Path.of("/").toFile());
    builder.environment().putAll(environment);
    builder.environment().put("LC_ALL", "C.UTF-8");
    Process process = builder.redirectErrorStream(true).redirectOutput(said.toFile()).start();
    boolean ended = process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS);
    String text = Files.readString(said, StandardCharsets.UTF_8);
    Files.delete(said);
    if (!ended || process.exitValue() != 0) {
      process.destroyForcibly();
      fail(String.join(" ", command) + ": " + text);
    }
  }
}
