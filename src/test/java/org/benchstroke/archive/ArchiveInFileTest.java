package org.benchstroke.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The archive in a file of SQLite. */
class ArchiveInFileTest extends ArchiveContract {
  private static final MadeUpRuns RUNS = new MadeUpRuns(12);

  @TempDir Path folder;
  private int made;

  @Override
  ArchivePlace fresh() {
    return new ArchivePlace.InFile(folder.resolve("a folder").resolve("archive" + made++));
  }

  @Override
  Connection connection(ArchivePlace place) throws Exception {
    return Connections.toFile(((ArchivePlace.InFile) place).file(), true, 0).getConnection();
  }

  private Path file() {
    return folder.resolve("archive.sqlite");
  }

  private void refused(String message) {
    assertThatThrownBy(() -> Archive.open(new ArchivePlace.InFile(file()), 0))
        .isInstanceOf(ArchiveFault.class)
        .hasMessage("the archive " + file() + " " + message);
  }

  @Test
  void aFileThatIsNoDatabaseIsRefused() throws Exception {
    Files.writeString(file(), "not a database at all\n".repeat(100));
    refused("is not a database; name another file with --archive");
    assertThat(Files.readString(file())).startsWith("not a database");
  }

  @Test
  void aFolderIsRefused() throws Exception {
    Files.createDirectory(file());
    refused("can't be opened; check its name, its folder and who may read it");
  }

  @Test
  void theDatabaseOfAnotherProgramIsLeftAlone() throws Exception {
    try (Connection connection = connection(new ArchivePlace.InFile(file()));
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE theirs (id INTEGER)");
    }
    refused("is a database of another program; name another file");
  }

  @Test
  void aLockedFileIsSaidToBeLocked() throws Exception {
    try (Archive archive = Archive.open(new ArchivePlace.InFile(file()), 0);
        Connection other = connection(archive.place());
        Statement statement = other.createStatement()) {
      statement.execute("BEGIN EXCLUSIVE");
      String locked = "is locked by another program; try again when that has ended";
      assertThatThrownBy(() -> archive.add(RUNS.run(1)))
          .isInstanceOf(ArchiveFault.class)
          .hasMessage("the archive " + file() + " " + locked);
      refused(locked);
      statement.execute("ROLLBACK");
      assertThat(archive.add(RUNS.run(1))).isEqualTo(Archive.Added.NEW);
    }
  }

  @Test
  void aWriteProtectedFileIsReadAndNotWritten() throws Exception {
    try (Archive archive = Archive.open(new ArchivePlace.InFile(file()))) {
      archive.add(RUNS.run(1));
    }
    Assumptions.assumeTrue(
        file().toFile().setWritable(false) && !Files.isWritable(file()),
        "this user may write to everything");
    try (Archive archive = Archive.existing(new ArchivePlace.InFile(file()))) {
      assertThat(archive.count()).isOne();
      assertThatThrownBy(() -> archive.add(RUNS.run(2)))
          .hasMessage(
              "the archive " + file() + " can't be written: file or folder is write-protected");
    }
  }

  /** As a person who switches the computer off, or the system that is short of memory. */
  @Test
  @Timeout(60)
  void aProgramThatIsKilledInTheMiddleLeavesWhatItHadAdded() throws Exception {
    ArchivePlace place = new ArchivePlace.InFile(file());
    for (int round = 0; round < 3; round++) {
      int first = 10_000 * round;
      Process writer = ArchiveWriter.start(place, first, 10_000, 1);
      int told = 0;
      try (var lines = writer.inputReader()) {
        for (String line = lines.readLine(); line != null && told < 15; line = lines.readLine()) {
          told++;
        }
        writer.destroyForcibly().waitFor();
      }
      assertThat(told).isEqualTo(15);
      try (Archive archive = Archive.open(place);
          Connection connection = connection(place);
          Statement statement = connection.createStatement();
          ResultSet integrity = statement.executeQuery("PRAGMA integrity_check")) {
        assertThat(integrity.getString(1)).isEqualTo("ok");
        for (int i = 0; i < told; i++) {
          assertThat(archive.measures(RUNS.run(first + i).file().sha256())).hasSize(12);
        }
      }
    }
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left.map(f -> f.getFileName().toString()))
          .allMatch(name -> name.startsWith("archive.sqlite") || name.equals("a folder"));
    }
  }

  @Test
  void aUnitAndADayAreFoundByAnIndex() throws Exception {
    try (Archive archive = Archive.open(new ArchivePlace.InFile(file()))) {
      RunFilter day = RunFilter.between(MadeUpRuns.START, MadeUpRuns.START.plusSeconds(86_400));
      var plans = archive.plans(RunFilter.ofSerial("QT-2"), day, day);
      assertThat(plans.get("by serial"))
          .anyMatch(line -> line.startsWith("SEARCH run USING INTEGER PRIMARY KEY"))
          .anyMatch(line -> line.startsWith("SEARCH attempt USING PRIMARY KEY (serial=?)"))
          .noneMatch(line -> line.startsWith("SCAN"));
      assertThat(plans.get("a day").get(0)).startsWith("SEARCH run USING INTEGER PRIMARY KEY");
    }
  }

  @Test
  @Timeout(60)
  void severalProgramsWriteToOneFile() throws Exception {
    ArchivePlace place = new ArchivePlace.InFile(file());
    Process first = ArchiveWriter.start(place, 0, 60, 2);
    Process second = ArchiveWriter.start(place, 30, 60, 2);
    ArchiveWriter.requireEnded(first);
    ArchiveWriter.requireEnded(second);
    try (Archive archive = Archive.existing(place)) {
      assertThat(archive.count()).isEqualTo(90);
    }
  }
}
