package org.benchstroke.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.archive.ArchivedRun.RecordFile;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.AmendmentFiles;
import org.benchstroke.record.JudgementSeal;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordOutline;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;
import org.benchstroke.tests.RecordedRun;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the archive keeps of a record, and what it makes of folders of them. */
class ReadRunTest {
  private static final Instant NOW = Instant.parse("2026-06-02T08:00:00Z");

  /** Made once: a whole run takes its time. */
  @TempDir static Path shared;

  @TempDir Path folder;

  private BenchKey key;
  private ArchivePlace place;

  @BeforeEach
  void openKey() throws Exception {
    key = new BenchKeys(shared.resolve("keys")).open("");
    place = ArchivePlace.beside(folder);
  }

  /** Sealed, with its judgement beside it, as a run leaves it. */
  private Path record(String simulation, String name) throws Exception {
    Path whole = shared.resolve(simulation + ".jsonl");
    if (Files.notExists(whole)) {
      VirtualBench.with(simulation).runInto(whole);
    }
    Path record = Files.copy(whole, folder.resolve(name + ".jsonl"));
    SealFile.write(record, key);
    Path judgement = Files.writeString(folder.resolve(name + ".json"), json(record));
    JudgementSeal.write(record, judgement, key);
    return record;
  }

  private static String json(Path record) throws Exception {
    return new JsonReport().json(new TwinAndCauses(judge(record)));
  }

  private static JudgedRun judge(Path record) throws Exception {
    return RecordedRun.judge(RecordReader.read(record));
  }

  private static void spoil(Path file) throws Exception {
    byte[] bytes = Files.readAllBytes(file);
    bytes[bytes.length - 200] ^= 1;
    Files.write(file, bytes);
  }

  @ParameterizedTest
  @ValueSource(strings = {"healthy-b", "zero-shift", "slack-after-sensor"})
  void theJudgementBesideARecordSaysWhatTheRecordSays(String simulation) throws Exception {
    Path record = record(simulation, "20260601-080000-A");
    ArchivedRun taken = ReadRun.of(record);
    ArchivedRun judged = ReadRun.judged(record);
    assertThat(taken.file().judgedFrom()).isEqualTo(RecordFile.JUDGEMENT);
    assertThat(judged.file().judgedFrom()).isEqualTo(RecordFile.RECORD);
    assertThat(taken.heading().labels()).isEqualTo(judged.labels());
    assertThat(taken.facts()).isEqualTo(judged.facts());
    assertThat(taken.result()).isEqualTo(judged.result());
    assertThat(taken.measures()).isEqualTo(judged.measures()).isNotEmpty();
    assertThat(taken.causes()).isEqualTo(judged.causes());
    assertThat(taken.instruments()).isEqualTo(judged.instruments()).isNotEmpty();
    assertThat(taken.key()).contains(key.shared()).isEqualTo(judged.key());
    assertThat(taken.file().sealKey()).contains(key.shared().fingerprint());
  }

  /** By the rule itself: with a guard band of U a value passes with a margin of 1 U or more. */
  @Test
  void theWorstMarginTellsTheWorstWord() throws Exception {
    for (String simulation : List.of("healthy-b", "zero-shift")) {
      Path record = record(simulation, simulation);
      double margin = ReadRun.of(record).result().worst().orElseThrow().margin();
      List<Word> words = new ArrayList<>();
      judge(record).judgements().stream()
          .filter(j -> j.measure().value().isPresent())
          .map(Judgement::word)
          .forEach(word -> word.ifPresent(words::add));
      assertThat(margin >= 1.0).isEqualTo(words.stream().allMatch(w -> w == Word.PASS));
      assertThat(margin < -1.0).isEqualTo(words.stream().anyMatch(w -> w == Word.FAIL));
    }
  }

  @Test
  void theJudgementOfOtherBytesIsNotTaken() throws Exception {
    Path record = record("healthy-b", "20260601-080000-A");
    Path judgement = folder.resolve("20260601-080000-A.json");
    String text = Files.readString(judgement);
    String sha256 = ReadRun.of(record).file().sha256();
    for (String other :
        List.of(
            text.replace(sha256, "0".repeat(64)),
            text.replace("\"place_id\"", "\"place_of_old\""),
            text.replace("\"format\" : 1,", "\"format\" : 2,"),
            "[1, 2",
            "null",
            "{}",
            "")) {
      assertThat(other).isNotEqualTo(text);
      Files.writeString(judgement, other);
      JudgementSeal.write(record, judgement, key);
      assertThat(ReadRun.of(record).file().judgedFrom()).isEqualTo(RecordFile.RECORD);
      assertThat(ReadRun.of(record).result().passed()).isTrue();
    }
  }

  /**
   * Whoever may write to the folder may make a fail a pass in the judgement, seal that by a key of
   * their own, or put another sealed judgement there: the archive says what the record says.
   */
  @Test
  void aJudgementThatWasEditedChangesNoVerdict() throws Exception {
    Path record = record("zero-shift", "20260601-080000-A");
    Path judgement = folder.resolve("20260601-080000-A.json");
    String text = Files.readString(judgement);
    String edited =
        text.replaceFirst("\"verdict\" : \"fail\"", "\"verdict\" : \"pass\"")
            .replaceFirst("\"passed\" : false", "\"passed\" : true");
    assertThat(edited).isNotEqualTo(text).contains("\"verdict\" : \"pass\"");
    assertThat(ReadRun.of(record).file().judgedFrom()).isEqualTo(RecordFile.JUDGEMENT);

    Files.writeString(judgement, edited);
    assertThat(ReadRun.of(record).result().verdict()).isEqualTo("fail");
    JudgementSeal.write(record, judgement, new BenchKeys(folder.resolve("other keys")).open(""));
    assertThat(ReadRun.of(record).result().passed()).isFalse();
    Path sound = record("healthy-b", "20260601-090000-B");
    Path of = JudgementSeal.of(folder.resolve("20260601-090000-B.json"));
    Files.copy(of, JudgementSeal.of(judgement), StandardCopyOption.REPLACE_EXISTING);
    assertThat(ReadRun.of(sound).result().passed()).isTrue();
    assertThat(ReadRun.of(record).result().passed()).isFalse();
    Files.delete(JudgementSeal.of(judgement));
    assertThat(ReadRun.of(record).result().passed()).isFalse();
    assertThat(ReadRun.of(record).file().judgedFrom()).isEqualTo(RecordFile.RECORD);
    rebuild(false);
    try (Archive archive = Archive.existing(place)) {
      assertThat(archive.runs(RunFilter.ALL, 9))
          .extracting(run -> run.file().name() + " " + run.result().verdict())
          .containsExactlyInAnyOrder(
              "20260601-080000-A.jsonl fail", "20260601-090000-B.jsonl pass");
    }
  }

  /** A judgement that says "passed" helps nobody who changes the record. */
  @Test
  void whatIsNotAsItWasSealedIsJudgedAndNeverPasses() throws Exception {
    Path record = record("healthy-b", "20260601-080000-A");
    spoil(record);
    String sha256 = RecordOutline.read(record).sha256();
    Path judgement = folder.resolve("20260601-080000-A.json");
    String old = MadeUpRuns.sha256("");
    assertThat(old).hasSize(64);
    Files.writeString(
        judgement,
        Files.readString(judgement)
            .replaceFirst("\"sha256\" : \"[0-9a-f]{64}\"", "\"sha256\" : \"" + sha256 + "\""));
    ArchivedRun run = ReadRun.of(record);
    assertThat(run.file().judgedFrom()).isEqualTo(RecordFile.RECORD);
    assertThat(run.result().passed()).isFalse();
    assertThat(run.file().flaws()).isPositive();
    assertThat(run.key()).isEmpty();
  }

  @Test
  void labelsAreAsAmended() throws Exception {
    Path record = record("healthy-b", "20260601-080000-A");
    RunRecord read = RecordReader.read(record);
    AmendmentFiles.write(record, read, Label.SERIAL, "QT-RIGHT", "Ann", "typo", NOW, key);
    ArchivedRun run = ReadRun.of(record);
    assertThat(run.file().judgedFrom()).isEqualTo(RecordFile.JUDGEMENT);
    assertThat(run.labels().serial()).isEqualTo("QT-RIGHT");
    assertThat(run.file().amendments()).isOne();
    assertThat(ReadRun.judged(record).labels()).isEqualTo(run.labels());

    spoil(folder.resolve("20260601-080000-A.jsonl.amendment-1"));
    assertThat(ReadRun.of(record).file().judgedFrom()).isEqualTo(RecordFile.RECORD);
    assertThat(ReadRun.of(record).result().passed()).isFalse();
    assertThat(ReadRun.of(record).file().flaws()).isOne();
  }

  @Test
  void aRunThatWasInterruptedIsKeptAsThat() throws Exception {
    Path record = record("healthy-b", "20260601-080000-A");
    Files.delete(SealFile.of(record));
    String text = Files.readString(record);
    Files.writeString(record, text.substring(0, text.length() / 2));
    ArchivedRun run = ReadRun.of(record);
    assertThat(run.facts().ending()).isEqualTo(ArchivedRun.Facts.INTERRUPTED);
    assertThat(run.result().whole()).isFalse();
    assertThat(run.file().flaws()).isOne();
  }

  @Test
  void anOutlineSaysWhatTheWholeRecordSays() throws Exception {
    Path record = record("healthy-b", "20260601-080000-A");
    RunRecord whole = RecordReader.read(record);
    RecordOutline outline = RecordOutline.read(record);
    assertThat(outline.sha256()).isEqualTo(whole.digest().orElseThrow().sha256());
    assertThat(outline.opened()).isEqualTo(whole.opened());
    assertThat(outline.seal()).isEqualTo(whole.seal().orElseThrow());
    assertThat(outline.closed()).isEqualTo(whole.closed()).isPresent();
    assertThat(outline.begun()).isEqualTo(whole.entries().get(0).utc());
    assertThat(outline.ended())
        .isEqualTo(whole.entries().get(whole.entries().size() - 1).utc())
        .isAfter(outline.begun());
    for (Label label : Label.values()) {
      assertThat(outline.label(label)).isEqualTo(whole.label(label));
    }
  }

  @Test
  void whatIsNoRecordHasNoOutline() throws Exception {
    Path file = folder.resolve("text.jsonl");
    for (String text : List.of("", "\n", "{}\n", "hello\n", "{\"n\":1,\"kind\":\"opened\"}\n")) {
      Files.writeString(file, text, StandardCharsets.UTF_8);
      assertThatThrownBy(() -> RecordOutline.read(file))
          .isInstanceOf(RecordReader.NotARecord.class)
          .hasMessageStartingWith(file + ": ");
    }
    assertThatThrownBy(() -> RecordOutline.read(folder))
        .isInstanceOf(RecordReader.NotARecord.class);
  }

  private Rebuild.Result rebuild(boolean force) throws Exception {
    Rebuild.LetGo letGo = new Rebuild.LetGo(force, Set.of());
    return new Rebuild(place, false, letGo, (done, all) -> {}).from(List.of(folder));
  }

  private long count() throws Exception {
    try (Archive archive = Archive.existing(place)) {
      return archive.count();
    }
  }

  @Test
  void rebuildingTellsWhatEachRecordIs() throws Exception {
    record("healthy-b", "20260601-080000-A");
    Path copy = record("healthy-b", "20260601-080000-B");
    Files.delete(SealFile.of(copy));
    Path changed = record("zero-shift", "20260601-080000-C");
    spoil(changed);
    Path renamed = folder.resolve("20260601-080000-D.jsonl");
    Files.copy(shared.resolve("slack-after-sensor.jsonl"), folder.resolve("X.jsonl"));
    SealFile.write(folder.resolve("X.jsonl"), key);
    Files.move(folder.resolve("X.jsonl"), renamed);
    Files.move(SealFile.of(folder.resolve("X.jsonl")), SealFile.of(renamed));
    Path none = Files.writeString(folder.resolve("20260601-080000-E.jsonl"), "hello\n");

    Rebuild.Result result = rebuild(false);
    assertThat(result.replaced()).isTrue();
    assertThat(result.files()).isEqualTo(5);
    // A and B are one record in two places.
    assertThat(result.runs()).isEqualTo(3);
    assertThat(count()).isEqualTo(3);
    assertThat(new TreeMap<>(result.counts()).toString())
        .isEqualTo("{SOUND=1, NOT_SEALED=1, RENAMED=1, CHANGED=1, UNREADABLE=1}");
    assertThat(result.flawed())
        .extracting(Taken::file, Taken::state)
        .containsExactly(
            tuple(copy.toAbsolutePath(), Taken.State.NOT_SEALED),
            tuple(changed.toAbsolutePath(), Taken.State.CHANGED),
            tuple(renamed.toAbsolutePath(), Taken.State.RENAMED),
            tuple(none.toAbsolutePath(), Taken.State.UNREADABLE));
  }

  /** A folder that was forgotten must not cost its runs their place. */
  @Test
  void runsOfOtherFoldersAreNotLostByRebuilding() throws Exception {
    record("healthy-b", "20260601-080000-A");
    try (Archive archive = Archive.open(place)) {
      archive.add(new MadeUpRuns(3).run(1));
    }
    Rebuild.Result refused = rebuild(false);
    assertThat(refused.replaced()).isFalse();
    assertThat(refused.strangers()).containsOnlyKeys("Bench 1");
    assertThat(count()).isOne();
    assertThat(rebuild(true).replaced()).isTrue();
    try (Archive archive = Archive.existing(place)) {
      assertThat(archive.runs(RunFilter.ALL, 9))
          .extracting(run -> run.file().name())
          .containsExactly("20260601-080000-A.jsonl");
    }
  }

  @Test
  void anArchiveThatIsSpoiltIsMadeAgain() throws Exception {
    record("healthy-b", "20260601-080000-A");
    rebuild(false);
    Path file = ((ArchivePlace.InFile) place).file();
    byte[] bytes = Files.readAllBytes(file);
    Arrays.fill(bytes, 100, bytes.length, (byte) 0x5A);
    Files.write(file, bytes);
    assertThatThrownBy(this::count)
        .isInstanceOf(ArchiveFault.class)
        .hasMessage(
            "the archive " + file + " is damaged; make it again from the records: archive rebuild");
    assertThat(rebuild(false).replaced()).isTrue();
    assertThat(count()).isOne();
  }

  /** Whoever was killed leaves a journal, which is of the old file and of no other. */
  @Test
  void theJournalOfASpoiltArchiveIsNotTakenForOneOfTheNew() throws Exception {
    record("healthy-b", "20260601-080000-A");
    Path file = ((ArchivePlace.InFile) place).file();
    Files.writeString(file, "SQLite format 3\0" + "spoilt ".repeat(1000));
    Path journal = Files.write(folder.resolve("archive.sqlite-journal"), new byte[4096]);
    assertThat(rebuild(false).replaced()).isTrue();
    assertThat(journal).doesNotExist();
    assertThat(count()).isOne();
  }

  @Test
  void aFileThatIsNoDatabaseIsNotReplaced() throws Exception {
    record("healthy-b", "20260601-080000-A");
    Path file = ((ArchivePlace.InFile) place).file();
    Files.writeString(file, "my notes\n");
    assertThatThrownBy(() -> rebuild(true)).hasMessageContaining("is not a database");
    assertThat(file).hasContent("my notes\n");
  }

  @Test
  void aFolderKnowsWhatTheArchiveLacks() throws Exception {
    Path first = record("healthy-b", "20260601-080000-A");
    Path second = record("zero-shift", "20260602-080000-B");
    try (Archive archive = Archive.open(place)) {
      assertThat(missing(archive)).containsExactly(second, first);
      assertThat(FolderOfRecords.of(folder).missing(archive, 1, false)).containsExactly(second);
      archive.add(ReadRun.of(first));
      archive.add(ReadRun.of(second));
      assertThat(missing(archive)).isEmpty();

      RunRecord read = RecordReader.read(first);
      AmendmentFiles.write(first, read, Label.ORDER, "4712", "Ann", "typo", NOW, key);
      assertThat(missing(archive)).containsExactly(first);
      archive.add(ReadRun.of(first));
      assertThat(missing(archive)).isEmpty();

      Files.delete(SealFile.of(second));
      assertThat(missing(archive)).containsExactly(second);
      archive.add(ReadRun.of(second));
      Files.writeString(second, "\n", StandardOpenOption.APPEND);
      assertThat(missing(archive)).containsExactly(second);
      assertThat(FolderOfRecords.of(folder).missing(archive, 9, false)).isEmpty();
      assertThat(archive.add(ReadRun.of(second))).isEqualTo(Archive.Added.REPLACED);
      assertThat(missing(archive)).isEmpty();
      assertThat(archive.count()).isEqualTo(2);
    }
  }

  private List<Path> missing(Archive archive) throws ArchiveFault {
    return FolderOfRecords.of(folder).missing(archive, Integer.MAX_VALUE, true);
  }
}
