package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.jobs.JobKey;
import org.benchstroke.record.AmendmentFiles;
import org.benchstroke.record.Event;
import org.benchstroke.record.FileJournal;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.signing.BenchKeys;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What is known of a unit before it is tested again, and how little is opened to know it. */
@Timeout(120)
class EarlierAttemptsTest {
  private static final Instant DAY = Instant.parse("2026-11-30T09:00:00Z");
  private static final JobKey JOB = new JobKey("4711", "QT-1");
  private static final Path BENCH = Path.of("demo-data/benches/wall-bench.toml");
  private static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final Path PROCEDURE = Path.of("demo-data/procedures/short-acceptance.toml");

  @TempDir Path folder;

  private final List<String> opened = new ArrayList<>();

  /** Notes what is opened, and opens it. */
  private final RecordStore.Opening noting =
      new RecordStore.Opening() {
        @Override
        public RecordHeading heading(Path file) throws RecordReader.NotARecord {
          opened.add(file.getFileName().toString());
          return RecordStore.Opening.FILES.heading(file);
        }

        @Override
        public RunRecord whole(Path file) throws RecordReader.NotARecord {
          opened.add(file.getFileName() + ", whole");
          return RecordStore.Opening.FILES.whole(file);
        }
      };

  private EarlierAttempts earlier() throws Exception {
    return EarlierAttempts.of(new RecordStore(folder, noting), JOB, false);
  }

  /** A record of a real unit that has no end, or none but that. */
  private Path record(String order, String serial, int day, boolean closed, String simulated)
      throws Exception {
    VirtualClock clock = new VirtualClock(DAY.plusSeconds(86_400L * day));
    Path file = RecordFiles.fresh(folder, serial, clock.utc()).record();
    List<Event.SourceFile> files =
        List.of(
            new Event.SourceFile("bench", "bench.toml", Files.readString(BENCH)),
            new Event.SourceFile("unit type", "type.toml", Files.readString(TYPE)),
            new Event.SourceFile("procedure", "procedure.toml", Files.readString(PROCEDURE)));
    try (FileJournal journal = FileJournal.create(file, clock)) {
      journal.write(
          new Event.Opened(Event.FORMAT, "test", simulated, 1.0, serial, "Ann", order, "Z", files));
      if (closed) {
        journal.write(new Event.MadeSafe(4.0, true, "confirmed"));
        journal.write(new Event.Closed("stopped", "stopped at the terminal", 1.0));
      }
    }
    return file;
  }

  private Path record(String order, String serial, int day) throws Exception {
    return record(order, serial, day, true, "");
  }

  @Test
  void aUnitThatWasNeverMetHasNothingSaidOfIt() throws Exception {
    record("4711", "QT-2", 0);
    assertThat(earlier().sentences()).isEmpty();
    assertThat(EarlierAttempts.of(new RecordStore(folder.resolve("none")), JOB, false).attempts())
        .isZero();
  }

  @Test
  void theNextAttemptIsCountedAndTheLastOneTold() throws Exception {
    record("4711", "QT-1", 0);
    assertThat(earlier().sentences())
        .containsExactly("attempt 2 of this job; the first was not completed on 2026-11-30");
    record("4711", "QT-1", 1, false, "");
    record("4712", "QT-1", 2);
    record("4711", "QT-1", 3, true, "a simulated unit");
    assertThat(earlier().sentences())
        .containsExactly(
            "attempt 3 of this job; the second was interrupted on 2026-12-01",
            "this serial number was tested before under order 4712, on 2026-12-02");
  }

  /** Ten thousand others, some of whose names look alike: five are opened. */
  @Test
  void onlyWhatMayBeOfTheUnitIsOpened() throws Exception {
    for (int i = 0; i < 10_000; i++) {
      Files.createFile(folder.resolve("20250601-%06d-QT-%d.jsonl".formatted(i, 2 + i)));
    }
    Path first = record("4711", "QT-1", 0);
    Path second = record("4711", "QT-1", 0);
    Path alike = record("4711", "QT-1-7", 0);
    record("4711", "QT-1-A", 0);
    record("4711", "qt-1", 0);
    record("4711", "QT-10", 0);
    Path renamed = Files.move(record("4711", "QT-1", 1), folder.resolve("kept.jsonl"));
    assertThat(second.getFileName().toString()).endsWith("-QT-1-2.jsonl");
    assertThat(earlier().attempts()).isEqualTo(3);
    assertThat(opened)
        .containsExactlyInAnyOrder(
            first.getFileName().toString(),
            second.getFileName().toString(),
            alike.getFileName().toString(),
            renamed.getFileName().toString());
  }

  @Test
  void aSerialNumberOfWhichThereAreVeryManyIsNotCountedToItsEnd() throws Exception {
    Path one = record("4711", "QT-1", 0);
    String text = Files.readString(one);
    for (int i = 2; i < 300; i++) {
      Files.writeString(folder.resolve("20261130-090000-QT-1-" + i + ".jsonl"), text);
    }
    assertThat(earlier().sentences().get(0))
        .startsWith("attempt 201 or later of this job; the last");
    assertThat(opened).hasSize(200);
  }

  /** What was mistyped and amended counts by what it should have been. */
  @Test
  void amendedRecordsBelongWhereTheyWereAmendedTo() throws Exception {
    Path mistyped = record("4711", "QT-l", 0);
    assertThat(earlier().attempts()).isZero();
    AmendmentFiles.write(
        mistyped,
        RecordReader.read(mistyped),
        Label.SERIAL,
        "QT-1",
        "Ann",
        "mistyped",
        DAY,
        new BenchKeys(folder.resolve("keys")).open(""));
    assertThat(earlier().attempts()).isEqualTo(1);
    Path away = record("4711", "QT-1", 1);
    AmendmentFiles.write(
        away,
        RecordReader.read(away),
        Label.ORDER,
        "4799",
        "Ann",
        "mistyped",
        DAY,
        new BenchKeys(folder.resolve("keys")).open(""));
    assertThat(earlier().attempts()).isEqualTo(1);
    assertThat(earlier().elsewhere()).singleElement().asString().contains("order 4799");
    assertThat(opened).contains(mistyped.getFileName() + ", whole");
  }

  private Session session(Optional<String> supervisor, Optional<ShopFile> shop) throws Exception {
    RunRequest request =
        new RunRequest(
            Optional.empty(),
            Optional.of(BENCH),
            Optional.of(TYPE),
            PROCEDURE,
            " QT-1",
            "Ann",
            "4711",
            Optional.empty(),
            supervisor,
            shop,
            Optional.empty(),
            folder,
            Optional.empty(),
            OptionalDouble.empty());
    return Session.of(request, "test");
  }

  @Test
  void theSixthAttemptWantsASupervisorOfTheShopAndTheRecordNamesThem() throws Exception {
    for (int i = 0; i < 5; i++) {
      assertThat(session(Optional.empty(), Optional.empty()).wantsSupervisor()).isFalse();
      record("4711", "QT-1", i);
    }
    Session sixth = session(Optional.empty(), Optional.empty());
    assertThat(sixth.wantsSupervisor()).isTrue();
    assertThatThrownBy(() -> sixth.ground(bench -> new VirtualClock(DAY), null, warning -> {}))
        .isInstanceOf(WrongRequest.class)
        .hasMessage(
            "Unit QT-1 of order 4711 had 5 attempts; a supervisor must allow the next:"
                + " --supervisor NAME");
    Session allowed = sixth.allowedBy(" Bo ");
    assertThat(allowed.wantsSupervisor()).isFalse();
    assertThat(allowed.plan().job().orElseThrow().facts()).containsEntry(Label.SUPERVISOR, "Bo");
    Optional<ShopFile> shop = Optional.of(ShopFileReader.read(Path.of("demo-data/shop/shop.toml")));
    assertThatThrownBy(() -> session(Optional.empty(), shop).allowedBy("Bo"))
        .hasMessage("--supervisor: \"Bo\" is not on the shop's list; on it are C. Instance");
    assertThatThrownBy(
            () ->
                session(Optional.of("Bo"), shop)
                    .ground(bench -> new VirtualClock(DAY), null, warning -> {}))
        .hasMessageContaining("is not on the shop's list");
    assertThat(session(Optional.of("c. instance"), shop).wantsSupervisor()).isFalse();
  }

  @Test
  void anOperatorWhoIsNotOnTheListIsNamedAndNotRefused() throws Exception {
    ShopFile shop = ShopFileReader.read(Path.of("demo-data/shop/shop.toml"));
    assertThat(session(Optional.empty(), Optional.of(shop)).warnings())
        .containsExactly("WARNING: the operator, Ann, is not on the shop's list.");
  }
}
