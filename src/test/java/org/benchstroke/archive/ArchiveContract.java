package org.benchstroke.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.archive.Archive.Added;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What every archive does, whatever database it is in. */
abstract class ArchiveContract {
  private static final MadeUpRuns RUNS = new MadeUpRuns(12);

  private ArchivePlace place;
  private Archive archive;

  /** One that nobody has used yet. */
  abstract ArchivePlace fresh() throws Exception;

  /** The database, past the archive. */
  abstract Connection connection(ArchivePlace place) throws Exception;

  @BeforeEach
  void open() throws Exception {
    place = fresh();
    archive = Archive.open(place);
  }

  @AfterEach
  void close() {
    archive.close();
  }

  private List<Heading> ofSerial(String serial) throws ArchiveFault {
    return archive.runs(RunFilter.ofSerial(serial), 100);
  }

  /** Tables of the first version get what came later, made from what they hold. */
  @Test
  void olderTablesAreBroughtUp() throws Exception {
    ArchivePlace place = fresh();
    MadeUpRuns made = new MadeUpRuns(2);
    try (Archive archive = Archive.open(place)) {
      for (int number = 0; number < 12; number++) {
        archive.add(made.run(number));
      }
    }
    try (Connection connection = connection(place);
        Statement statement = connection.createStatement()) {
      statement.execute("DROP TABLE attempt");
      statement.execute("DROP TABLE bench_reading");
      statement.execute("DROP TABLE bench_check");
      statement.execute("DELETE FROM flyway_schema_history WHERE version IN ('2', '3')");
    }
    try (Archive archive = Archive.open(place)) {
      assertThat(archive.state().version()).isEqualTo(3);
      assertThat(archive.runs(RunFilter.ofSerial(MadeUpRuns.serial(5)), 9)).hasSize(1);
      assertThat(archive.runs(RunFilter.ofSerial(MadeUpRuns.serial(4)), 9)).hasSize(2);
      assertThat(archive.yields(RunFilter.ALL)).isNotEmpty();
      archive.add(made.run(13));
      assertThat(archive.count()).isEqualTo(13);
    }
  }

  @Test
  void checksOfManyBenchesAreKeptOnceEach() throws Exception {
    try (Archive archive = Archive.open(fresh())) {
      List<ArchivedCheck> checks = new ArrayList<>();
      for (int i = 0; i < 6; i++) {
        checks.add(
            new ArchivedCheck(
                MadeUpRuns.sha256("check " + i),
                "folder " + i % 2,
                "Bench " + i % 2,
                i == 5,
                MadeUpRuns.begun(10 - i),
                "Ann",
                "read by eye",
                false,
                false,
                Optional.empty(),
                Map.of("loop at 4 mA", 4.0 + i),
                "line " + i));
      }
      assertThat(archive.addChecks(checks)).isEqualTo(6);
      assertThat(archive.addChecks(checks)).isZero();
      assertThat(archive.benchesChecked(false)).containsExactly("Bench 0", "Bench 1");
      assertThat(archive.benchesChecked(true)).containsExactly("Bench 1");
      assertThat(archive.checksOf("Bench 0", false)).containsExactly("line 4", "line 2", "line 0");
      assertThat(archive.checksOf("Bench 1", false)).containsExactly("line 3", "line 1");
    }
  }

  @Test
  void whatWasAddedIsReadBack() throws Exception {
    ArchivedRun run = RUNS.run(1);
    assertThat(archive.add(run)).isEqualTo(Added.NEW);
    assertThat(ofSerial(run.labels().serial())).containsExactly(run.heading());
    assertThat(archive.measures(run.file().sha256())).isEqualTo(run.measures());
    assertThat(archive.state().runs()).isOne();
    assertThat(archive.state().first()).contains(run.facts().begun());
  }

  @Test
  void theSameRecordTwiceIsThereOnce() throws Exception {
    archive.add(RUNS.run(1));
    assertThat(archive.add(RUNS.run(1))).isEqualTo(Added.UNCHANGED);
    assertThat(archive.addAll(List.of(RUNS.run(1), RUNS.run(1)), true)).containsOnly(Added.UPDATED);
    assertThat(archive.count()).isOne();
    assertThat(archive.measures(RUNS.run(1).file().sha256())).hasSize(12);
  }

  @Test
  void anAmendedRecordIsBroughtUpToDate() throws Exception {
    archive.add(RUNS.run(1));
    assertThat(archive.add(Changed.amended(RUNS.run(1), "QT-RIGHT"))).isEqualTo(Added.UPDATED);
    assertThat(ofSerial("QT-RIGHT")).hasSize(1);
    assertThat(ofSerial(RUNS.run(1).labels().serial())).isEmpty();
    assertThat(archive.count()).isOne();
  }

  @Test
  void aRecordWithOtherBytesReplacesTheOneOfItsNameAndBegin() throws Exception {
    ArchivedRun other = Changed.sha256(RUNS.run(1), MadeUpRuns.sha256("changed"));
    archive.add(RUNS.run(1));
    assertThat(archive.add(other)).isEqualTo(Added.REPLACED);
    assertThat(ofSerial(other.labels().serial())).containsExactly(other.heading());
    assertThat(archive.measures(RUNS.run(1).file().sha256())).isEmpty();
  }

  /** Two benches may begin in one millisecond, and digests may begin alike. */
  @Test
  void runsThatBeginTogetherKeepApart() throws Exception {
    String alike = "ffff" + "0".repeat(59);
    for (int i = 0; i < 9; i++) {
      ArchivedRun run = Changed.sha256(RUNS.run(1), alike + i);
      assertThat(archive.add(Changed.name(run, "name-" + i))).isEqualTo(Added.NEW);
    }
    assertThat(archive.count()).isEqualTo(9);
    ArchivedRun third = Changed.name(Changed.sha256(RUNS.run(1), alike + 3), "name-3");
    assertThat(archive.add(third)).isEqualTo(Added.UNCHANGED);
    assertThat(archive.runs(RunFilter.ALL, 100))
        .extracting(run -> run.file().name())
        .doesNotHaveDuplicates();
  }

  @Test
  void whateverStandsInASerialNumberIsText() throws Exception {
    List<String> serials =
        List.of(
            "x'); DROP TABLE run; --",
            "' OR '1'='1",
            "\"; DELETE FROM measure; --",
            ":serial",
            "$1",
            "${parts}",
            "<name>",
            "?",
            "%",
            "Prüfling № 7 \\");
    for (int i = 0; i < serials.size(); i++) {
      archive.add(Changed.of(RUNS.run(i), serials.get(i), "4711"));
    }
    for (String serial : serials) {
      assertThat(ofSerial(serial)).extracting(run -> run.labels().serial()).containsExactly(serial);
    }
    assertThat(archive.count()).isEqualTo(serials.size());
  }

  /** As found it fails, then it is adjusted; what was not whole is neither. */
  @Test
  void aJobTellsAsFoundAndAsLeft() throws Exception {
    archive.add(Changed.result(Changed.of(RUNS.run(1), "A", "1"), "no result", false, false));
    archive.add(Changed.result(Changed.of(RUNS.run(2), "A", "1"), "fail", true, false));
    archive.add(Changed.result(Changed.of(RUNS.run(3), "A", "1"), "pass", true, true));
    archive.add(Changed.result(Changed.of(RUNS.run(4), "A", "1"), "no result", false, false));
    archive.add(Changed.result(Changed.of(RUNS.run(5), "A", "2"), "conditional pass", true, false));
    archive.add(Changed.result(Changed.of(RUNS.run(6), "B", "2"), "no result", false, false));
    archive.add(Changed.simulated(Changed.of(RUNS.run(7), "A", "1")));

    JobLine job =
        archive.jobs(RunFilter.ofSerial("A"), 10).stream()
            .filter(j -> j.order().equals("1") && !j.simulated())
            .findFirst()
            .orElseThrow();
    assertThat(job.attempts()).isEqualTo(4);
    assertThat(job.wholeAttempts()).isEqualTo(2);
    assertThat(job.firstPass()).contains(false);
    assertThat(job.asFound()).contains("fail");
    assertThat(job.asLeft()).contains("pass");
    assertThat(job.first()).isEqualTo(MadeUpRuns.begun(1));
    assertThat(job.last()).isEqualTo(MadeUpRuns.begun(4));
    assertThat(job.unitType()).isEqualTo(MadeUpRuns.type(4));

    assertThat(archive.jobs(RunFilter.ALL, 10))
        .extracting(JobLine::serial, JobLine::order, JobLine::simulated)
        .containsExactly(
            tuple("A", "1", true),
            tuple("B", "2", false),
            tuple("A", "2", false),
            tuple("A", "1", false));
    JobLine none = archive.jobs(RunFilter.ofSerial("B"), 10).get(0);
    assertThat(none.firstPass()).isEmpty();
    assertThat(none.asFound()).isEmpty();
  }

  /** A day shows a job whose first run was on another: its as found is of that one all the same. */
  @Test
  void aJobIsWholeWhateverDayIsAskedFor() throws Exception {
    archive.add(Changed.result(Changed.of(RUNS.run(0), "A", "1"), "fail", true, false));
    archive.add(Changed.result(Changed.of(RUNS.run(600), "A", "1"), "pass", true, true));
    RunFilter late = RunFilter.between(MadeUpRuns.begun(599), MadeUpRuns.begun(601));
    assertThat(archive.jobs(late, 10))
        .singleElement()
        .satisfies(job -> assertThat(job.asFound()).contains("fail"))
        .satisfies(job -> assertThat(job.attempts()).isEqualTo(2));
    assertThat(archive.yields(late)).isEmpty();
  }

  @Test
  void yieldCountsFirstWholeRunsOfUnitsThatAreThere() throws Exception {
    fill(96);
    archive.add(Changed.simulated(Changed.of(RUNS.run(200), "S", "S")));
    archive.add(Changed.result(Changed.of(RUNS.run(201), "N", "N"), "no result", false, false));
    // Of three runs the first two are of one unit, and the first fails.
    int jobs = 0;
    int passes = 0;
    for (int i = 0; i < 96; i++) {
      jobs += i % 3 == 1 ? 0 : 1;
      passes += i % 3 == 2 ? 1 : 0;
    }
    List<YieldLine> yields = archive.yields(RunFilter.ALL);
    assertThat(yields.stream().mapToInt(YieldLine::jobs).sum()).isEqualTo(jobs);
    assertThat(yields.stream().mapToInt(YieldLine::firstPasses).sum()).isEqualTo(passes);
  }

  @Test
  void statisticsAreOfRealRunsOrOfSimulatedOnes() throws Exception {
    ShopHistoryChecks.fill(archive);
    ShopHistoryChecks.realRunsAlone(archive);
    ShopHistoryChecks.simulatedRunsAlone(archive);
  }

  private void fill(int runs) throws ArchiveFault {
    archive.addAll(IntStream.range(0, runs).mapToObj(RUNS::run).toList(), false);
  }

  /** Among others a year ends, and with it a partition. */
  @Test
  void everyFilterFindsWhatItSaysAndNothingElse() throws Exception {
    fill(64);
    Instant turn = Instant.parse("2024-01-01T00:00:00Z");
    for (int i = -3; i < 3; i++) {
      ArchivedRun run = Changed.of(RUNS.run(100 + i), "NY", "NY");
      archive.add(Changed.begun(run, turn.plusSeconds(i)));
    }
    assertThat(archive.runs(RunFilter.between(turn, turn.plusSeconds(99)), 100)).hasSize(3);
    assertThat(archive.runs(RunFilter.between(turn.minusSeconds(3), turn), 100)).hasSize(3);
    assertThat(archive.runs(RunFilter.between(turn.minusSeconds(3), turn.plusSeconds(3)), 4))
        .extracting(run -> run.facts().begun())
        .containsExactly(turn.plusSeconds(2), turn.plusSeconds(1), turn, turn.minusSeconds(1));

    Optional<String> none = Optional.empty();
    Optional<Instant> ever = Optional.empty();
    assertThat(
            count(new RunFilter(none, Optional.of("order 1"), none, none, none, none, ever, ever)))
        .isEqualTo(30);
    assertThat(
            count(
                new RunFilter(
                    none,
                    Optional.of("order 1"),
                    Optional.of(MadeUpRuns.type(33)),
                    Optional.of("fail"),
                    Optional.of("Ann"),
                    Optional.of("Bench 1"),
                    ever,
                    ever)))
        .isEqualTo(1);
    assertThat(count(new RunFilter(none, none, none, none, Optional.of("ann"), none, ever, ever)))
        .isZero();
  }

  private int count(RunFilter filter) throws ArchiveFault {
    return archive.runs(filter, 1000).size();
  }

  @Test
  void whatANewerVersionWroteIsRefused() throws Exception {
    archive.close();
    execute(
        "INSERT INTO flyway_schema_history (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success)"
            + " VALUES (99, '99', 'later', 'SQL', 'V99__later.sql', 'someone', 1, true)");
    assertThatThrownBy(() -> Archive.open(place))
        .isInstanceOf(ArchiveFault.class)
        .hasMessage(
            "the archive "
                + place
                + " was written by a newer version of this program (its tables are of version 99,"
                + " this one knows 3); update this program, or name another archive");
    assertThatThrownBy(() -> Archive.existing(place)).hasMessageContaining("newer version");
  }

  @Test
  void whatIsNotThereIsNotMadeByWhoAsks() throws Exception {
    ArchivePlace other = fresh();
    assertThatThrownBy(() -> Archive.existing(other))
        .isInstanceOf(ArchiveFault.class)
        .hasMessage(
            "there is no archive " + other + " yet; make it from the records: archive rebuild");
  }

  @Test
  void whatCannotBeAddedWholeIsNotAdded() throws Exception {
    archive.add(RUNS.run(1));
    execute("DROP TABLE instrument");
    assertThatThrownBy(() -> archive.addAll(List.of(RUNS.run(2), RUNS.run(3)), false))
        .isInstanceOf(ArchiveFault.class)
        .hasMessageStartingWith("the archive " + place + " failed: ");
    assertThat(archive.count()).isOne();
  }

  private void execute(String sql) throws Exception {
    try (Connection connection = connection(place);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    } catch (SQLException e) {
      throw new AssertionError(sql, e);
    }
  }

  @Test
  void aPageFurtherOnGoesOnWhereTheLastOneEnded() throws Exception {
    fill(96);
    List<Heading> all = archive.runs(RunFilter.ALL, 96);
    assertThat(archive.runs(RunFilter.ALL, 40, 40)).isEqualTo(all.subList(40, 80));
    assertThat(archive.runs(RunFilter.ALL, 40, 80)).isEqualTo(all.subList(80, 96));
    List<JobLine> jobs = archive.jobs(RunFilter.ALL, 96);
    assertThat(archive.jobs(RunFilter.ALL, 20, 20)).isEqualTo(jobs.subList(20, 40));
  }

  /** Within a serial number, an order or a tag; no character stands for others. */
  @Test
  void aTextIsFoundWithinTheNamesOfAUnit() throws Exception {
    archive.add(Changed.of(RUNS.run(1), "QT-100%_a!", "4711"));
    archive.add(Changed.of(RUNS.run(3), "QT-1000", "Order 4711-B"));
    archive.add(RUNS.run(4));
    assertThat(within("qt-100")).containsExactlyInAnyOrder("QT-100%_a!", "QT-1000");
    assertThat(within("100%_A!")).containsExactly("QT-100%_a!");
    assertThat(within("0_")).isEmpty();
    assertThat(within("order 4711")).containsExactly("QT-1000");
    assertThat(within("TAG-4")).containsExactly(MadeUpRuns.serial(4));
    assertThat(within("' OR '1'='1")).isEmpty();
  }

  private List<String> within(String text) throws ArchiveFault {
    Optional<String> any = Optional.empty();
    RunFilter filter =
        new RunFilter(
            any, any, any, any, any, any, Optional.empty(), Optional.empty(), Optional.of(text));
    return archive.runs(filter, 10).stream().map(run -> run.labels().serial()).toList();
  }

  @Test
  void aRunIsFoundByTheBeginningOfItsDigest() throws Exception {
    fill(32);
    for (int i : List.of(0, 7, 31)) {
      String sha256 = RUNS.run(i).file().sha256();
      assertThat(archive.byDigest(sha256.substring(0, 16))).containsExactly(RUNS.run(i).heading());
      assertThat(archive.byDigest(sha256)).hasSize(1);
    }
    assertThat(archive.byDigest("")).hasSize(32);
  }

  @Test
  void namesToChooseFromStandOnceEach() throws Exception {
    fill(96);
    assertThat(archive.names().benches())
        .containsExactly("Bench 0", "Bench 1", "Bench 2", "Bench 3");
    assertThat(archive.names().unitTypes()).hasSize(16);
    assertThat(archive.names().operators()).containsExactly("Ann");
  }
}
