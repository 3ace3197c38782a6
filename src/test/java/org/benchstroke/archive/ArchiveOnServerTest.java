package org.benchstroke.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The archive on a PostgreSQL server. */
class ArchiveOnServerTest extends ArchiveContract {
  private static Postgres server;

  @BeforeAll
  static void startServer() throws Exception {
    server = Postgres.start();
  }

  @AfterAll
  static void stopServer() throws Exception {
    if (server != null) {
      server.close();
    }
  }

  @Override
  ArchivePlace fresh() throws Exception {
    return server.database();
  }

  @Override
  Connection connection(ArchivePlace place) throws Exception {
    return Connections.driver((ArchivePlace.OnServer) place).getConnection();
  }

  private static void refused(ArchivePlace place, String message) {
    assertThatThrownBy(() -> Archive.open(place))
        .isInstanceOf(ArchiveFault.class)
        .hasMessage("the archive " + place + " " + message);
  }

  private static ArchivePlace.OnServer at(String host, int port, String database, String user) {
    return new ArchivePlace.OnServer(host, port, database, Optional.of(user), Map.of());
  }

  @Test
  void everyRefusalIsALineThatSaysWhatToDo() throws Exception {
    ArchivePlace.OnServer there = server.database();
    String password =
        "was refused: user or password is wrong or missing; give the password in PGPASSWORD or in"
            + " .pgpass in your home";
    refused(at("127.0.0.1", there.port(), there.database(), "nobody"), password);
    refused(
        server.place("no_such"),
        "is not there: the server has no database \"no_such\"; make it with createdb");
    int free;
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      free = socket.getLocalPort();
    }
    refused(
        at("127.0.0.1", free, "a", "b"),
        "can't be reached: no answer; check host and port, and that the server runs");
    // RFC 6761: nobody has a name under "invalid".
    refused(
        at("no-such-host.invalid", 5432, "a", "b"),
        "can't be reached: there is no host \"no-such-host.invalid\"; check host and port, and that"
            + " the server runs");
  }

  @Test
  void aWrongPasswordIsSaidToBeWrong() throws Exception {
    ArchivePlace.OnServer there = server.database();
    String right = System.getProperty("org.postgresql.pgpassfile");
    Path wrong = Files.createTempFile("wrong", "");
    try {
      Files.writeString(wrong, "*:*:*:*:wrong\n");
      System.setProperty("org.postgresql.pgpassfile", wrong.toString());
      assertThatThrownBy(() -> Archive.open(there))
          .hasMessageContaining("user or password is wrong or missing")
          .hasMessageNotContaining("wrong\n");
    } finally {
      System.setProperty("org.postgresql.pgpassfile", right);
      Files.delete(wrong);
    }
  }

  @Test
  void everyMonthIsAPartition() throws Exception {
    ArchivePlace place = server.database();
    MadeUpRuns runs = new MadeUpRuns(3);
    try (Archive archive = Archive.open(place)) {
      for (int number : new int[] {0, 1, 10_000, 60_000}) {
        archive.add(runs.run(number));
      }
      try (Connection connection = connection(place);
          Statement statement = connection.createStatement();
          ResultSet parts =
              statement.executeQuery(
                  "SELECT relname FROM pg_class WHERE relispartition AND relkind = 'r'"
                      + " ORDER BY relname")) {
        List<String> names = new ArrayList<>();
        while (parts.next()) {
          names.add(parts.getString(1));
        }
        assertThat(names)
            .contains("run_2023_01", "run_2023_02", "measure_2023_01", "cause_2023_01")
            .hasSize(12);
      }
    }
  }

  /** Whoever rebuilds from a bench's own folder must not cost the other benches their runs. */
  @Test
  void rebuildingLetsNoOtherBenchesRunsGoUnlessTheyAreNamed() throws Exception {
    ArchivePlace place = server.database();
    Path folder = Files.createTempDirectory("no-records");
    MadeUpRuns runs = new MadeUpRuns(1);
    try (Archive archive = Archive.open(place)) {
      for (int number = 0; number < 8; number++) {
        archive.add(runs.run(number));
      }
      Rebuild any = rebuild(place, new Rebuild.LetGo(true, Set.of()));
      assertThatThrownBy(() -> any.from(List.of(folder)))
          .isInstanceOf(ArchiveFault.class)
          .hasMessageContaining("name the benches whose runs may go");
      assertThat(archive.count()).isEqualTo(8);
      Rebuild.Result kept = rebuild(place, Rebuild.LetGo.NONE).from(List.of(folder));
      assertThat(kept.strangers()).hasSize(4);
      assertThat(kept.gone()).isZero();
      assertThat(archive.count()).isEqualTo(8);
      Rebuild.Result one =
          rebuild(place, new Rebuild.LetGo(false, Set.of("Bench 1"))).from(List.of(folder));
      assertThat(one.gone()).isEqualTo(2);
      assertThat(archive.runs(RunFilter.ALL, 9))
          .extracting(run -> run.facts().bench())
          .hasSize(6)
          .doesNotContain("Bench 1");
    }
    Files.delete(folder);
  }

  private static Rebuild rebuild(ArchivePlace place, Rebuild.LetGo letGo) {
    return new Rebuild(place, false, letGo, (done, all) -> {});
  }

  /**
   * Four benches of four threads each, whose runs overlap, while the server stops and starts: each
   * run is there once in the end.
   */
  @Test
  @Timeout(120)
  void noneIsLostAndNoneIsThereTwiceThoughTheServerStopsMeanwhile() throws Exception {
    ArchivePlace place = server.database();
    List<Process> writers = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      writers.add(ArchiveWriter.start(place, 100 * i, 200, 4));
    }
    // Every one is at work before the server goes away.
    for (Process writer : writers) {
      assertThat(writer.inputReader().readLine()).isNotBlank();
    }
    server.stop();
    server.goOn();
    server.stop();
    server.goOn();
    for (Process writer : writers) {
      ArchiveWriter.requireEnded(writer);
    }
    try (Archive archive = Archive.existing(place)) {
      assertThat(archive.count()).isEqualTo(500);
      assertThat(archive.runs(RunFilter.ALL, 1000))
          .extracting(run -> run.file().sha256())
          .doesNotHaveDuplicates()
          .hasSize(500);
      assertThat(archive.measures(new MadeUpRuns(12).run(499).file().sha256())).hasSize(12);
    }
  }
}
