package org.benchstroke.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.benchstroke.Counted;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.record.Seal.State;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sealed records, changed by those who know how a record is made. */
class SealFileTest {
  private static final int CHANGES = 10_000;

  @TempDir Path folder;

  private BenchKey key;
  private Path one;
  private Path other;

  @BeforeEach
  void twoSealedRecords() throws Exception {
    key = new BenchKeys(folder.resolve("keys")).open("");
    one = sealed("one.jsonl", 0);
    other = sealed("other.jsonl", 1);
  }

  private Path sealed(String name, int later) throws Exception {
    Path file = folder.resolve(name);
    VirtualClock clock = new VirtualClock(FileJournalTest.START);
    clock.waitUntil(later);
    try (FileJournal journal = FileJournal.create(file, clock)) {
      for (Event event : FileJournalTest.oneOfEach()) {
        clock.waitUntil(clock.nanos() + 1_234_567 + later);
        journal.write(event);
      }
    }
    SealFile.write(file, key);
    return file;
  }

  @Test
  void aSealedRecordIsReadAsSealed() throws Exception {
    assertThat(Files.readString(SealFile.of(one)).lines()).hasSize(2);
    Seal seal = SealFile.check(one);
    assertThat(seal.state()).isEqualTo(State.SEALED);
    assertThat(seal.key()).contains(key.shared());
    RunRecord read = RecordReader.read(one);
    assertThat(read.seal()).contains(seal);
    assertThat(read.doubts()).isEmpty();
  }

  @Test
  void whatIsNotClosedIsNotSealed() throws Exception {
    List<String> lines = lines(Files.readAllBytes(one));
    String begin = String.join("", lines.subList(0, lines.size() - 1));
    Path open = Files.writeString(folder.resolve("open.jsonl"), begin);
    assertThatThrownBy(() -> SealFile.write(open, key)).hasMessageContaining("no closing line");
    Path torn = Files.writeString(folder.resolve("torn.jsonl"), begin + "{\"n\"");
    assertThatThrownBy(() -> SealFile.write(torn, key)).hasMessageContaining("damaged from line");
    assertThatThrownBy(() -> SealFile.write(folder.resolve("none.jsonl"), key))
        .hasMessageContaining("there is no such file");
    byte[] before = Files.readAllBytes(SealFile.of(one));
    assertThatThrownBy(() -> SealFile.write(one, key)).hasMessageContaining("is there already");
    assertThat(Files.readAllBytes(SealFile.of(one))).isEqualTo(before);
    assertThat(SealFile.check(open).text()).isEqualTo("not sealed: there is no seal beside it");
  }

  @Test
  void whatWasDoneIsSaid() throws Exception {
    List<String> lines = lines(Files.readAllBytes(one));
    int count = lines.size();
    String sealed = ", and was sealed with " + count + " lines";
    assertThat(changed(String.join("", lines.subList(0, 5))))
        .isEqualTo("line 6 and all after it were cut off: it was sealed with " + count + " lines");
    assertThat(changed(String.join("", lines.subList(0, 5)) + lines.get(5).substring(0, 9)))
        .isEqualTo("it ends within line 6" + sealed);
    assertThat(changed(String.join("", lines) + "{}\n"))
        .isEqualTo("line " + (count + 1) + " was added" + sealed);
    List<String> edited = new ArrayList<>(lines);
    edited.set(3, lines.get(3).replace("\"body\":{", "\"body\":{ "));
    assertThat(changed(String.join("", edited))).isEqualTo("line 4 is not the one that was sealed");
    assertThat(changed(anew(edited)))
        .isEqualTo("line 4 is not the one that was sealed, and its check value was made anew");
  }

  private String changed(String text) throws Exception {
    Files.writeString(one, text);
    Seal seal = SealFile.check(one);
    assertThat(seal.state()).isEqualTo(State.BROKEN);
    return seal.detail();
  }

  @Test
  void aSealFromElsewhereDoesNotFit() throws Exception {
    Files.copy(SealFile.of(other), SealFile.of(one), StandardCopyOption.REPLACE_EXISTING);
    assertThat(SealFile.check(one).state()).isEqualTo(State.BROKEN);
    Files.writeString(SealFile.of(one), "{\"seal\":1}\n{\"signature\":\"\"}\n");
    assertThat(SealFile.check(one).detail()).contains("the seal itself was changed");
    Files.delete(SealFile.of(one));
    Files.createDirectory(SealFile.of(one));
    assertThat(SealFile.check(one).state()).isEqualTo(State.NOT_SEALED);
    Files.delete(SealFile.of(one));
    assertThat(SealFile.check(one).state()).isEqualTo(State.NOT_SEALED);
  }

  /** Whoever has no key of the bench can take one of their own: that is told by the key alone. */
  @Test
  void aSealByAnotherKeyNamesThatKey() throws Exception {
    BenchKey stranger = new BenchKeys(folder.resolve("stranger")).open("");
    List<String> lines = lines(Files.readAllBytes(one));
    lines.set(3, lines.get(3).replace("\"body\":{", "\"body\":{ "));
    Files.writeString(one, anew(lines));
    Files.delete(SealFile.of(one));
    SealFile.write(one, stranger);
    assertThat(SealFile.check(one).state()).isEqualTo(State.SEALED);
    assertThat(SealFile.check(one).key()).contains(stranger.shared());
  }

  /** A seal is there whole or not at all, whenever the program is killed. */
  @Test
  void aKillLeavesNoHalfASeal() throws Exception {
    Random random = new Random(7);
    for (int kill = 0; kill < 6; kill++) {
      Path own = Files.createDirectory(folder.resolve("kill-" + kill));
      Path record = Files.copy(one, own.resolve("record.jsonl"));
      Process program =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-XX:+UseSerialGC",
                  "-XX:TieredStopAtLevel=1",
                  "-cp",
                  System.getProperty("java.class.path"),
                  SealsRecords.class.getName(),
                  record.toString(),
                  folder.resolve("keys").toString())
              .redirectErrorStream(true)
              .start();
      int last = random.nextInt(40);
      for (String line = ""; !line.equals(String.valueOf(last)); ) {
        line = program.inputReader().readLine();
      }
      program.destroyForcibly().waitFor();
      assertSealedOrNot(own, last);
    }
  }

  private void assertSealedOrNot(Path own, int last) throws Exception {
    for (int i = 0; Files.exists(own.resolve("copy-" + i + ".jsonl")); i++) {
      Path copy = own.resolve("copy-" + i + ".jsonl");
      boolean sealed = i <= last || Files.exists(SealFile.of(copy));
      assertThat(SealFile.check(copy).state()).isEqualTo(sealed ? State.SEALED : State.NOT_SEALED);
    }
  }

  /** What is done to a record. */
  private enum Change {
    BYTE,
    BYTE_LOST,
    BYTE_MORE,
    LINE_LOST,
    LINE_TWICE,
    LINES_SWAPPED,
    CUT_ANYWHERE,
    CUT_AT_LINE,
    ANEW_BYTE,
    ANEW_LINE_LOST,
    ANEW_SWAPPED,
    ANEW_ADDED,
    OTHERS_LINE,
    OTHERS_RECORD,
    SEAL_BYTE,
    SEAL_CUT,
    OTHERS_SEAL,
    SEAL_LOST,
    NAMES_EXCHANGED
  }

  /** Every one of them is found, and the first line that is not as it was sealed is named. */
  @Test
  void everyChangeIsFound() throws Exception {
    int changes = Counted.of(CHANGES);
    Random random = new Random(20260601);
    Map<Change, Integer> done = new EnumMap<>(Change.class);
    byte[] record = Files.readAllBytes(one);
    byte[] seal = Files.readAllBytes(SealFile.of(one));
    byte[] others = Files.readAllBytes(other);
    byte[] othersSeal = Files.readAllBytes(SealFile.of(other));
    for (int i = 0; i < changes; i++) {
      Change change = Change.values()[i % Change.values().length];
      byte[] changed = record(change, record, others, random);
      byte[] beside =
          change == Change.OTHERS_SEAL || change == Change.NAMES_EXCHANGED
              ? othersSeal
              : seal(change, seal, random);
      if (change != Change.SEAL_LOST && Arrays.equals(changed, record) && beside == seal) {
        continue; // nothing was changed
      }
      done.merge(change, 1, Integer::sum);
      Files.write(one, changed);
      Files.write(SealFile.of(one), beside);
      if (change == Change.SEAL_LOST) {
        Files.delete(SealFile.of(one));
      }
      String which = change + ", number " + i;
      Seal found = SealFile.check(one);
      assertThat(found.state()).as(which).isEqualTo(expected(change));
      boolean lineTold = beside == seal && expected(change) == State.BROKEN;
      if (lineTold) {
        assertThat(found.line()).as(which).hasValue(firstDifference(record, changed));
        assertThat(found.detail()).as(which).contains("line " + found.line().getAsLong());
      }
      if (expected(change) == State.BROKEN && i % 8 == 0) {
        assertThat(doubted(changed)).as(which).isTrue();
      }
    }
    assertThat(done).hasSize(Change.values().length);
    assertThat(done.values().stream().mapToInt(n -> n).sum()).isGreaterThan(changes * 9 / 10);
  }

  private static State expected(Change change) {
    return switch (change) {
      case SEAL_LOST -> State.NOT_SEALED;
      case NAMES_EXCHANGED -> State.RENAMED;
      default -> State.BROKEN;
    };
  }

  /** Whoever reads the record learns of it; a first line that is none makes it no record. */
  private boolean doubted(byte[] changed) {
    try {
      return !RecordReader.read(one).doubts().isEmpty();
    } catch (RecordReader.NotARecord e) {
      return changed.length > 0 || e.getMessage().contains("is empty");
    }
  }

  private static byte[] record(Change change, byte[] record, byte[] others, Random random) {
    List<String> lines = lines(record);
    int last = lines.size() - 1;
    int line = random.nextInt(last);
    int at = random.nextInt(record.length);
    switch (change) {
      case BYTE -> {
        byte[] changed = record.clone();
        changed[at] = (byte) random.nextInt(256);
        return changed;
      }
      case BYTE_LOST -> {
        return joined(Arrays.copyOf(record, at), Arrays.copyOfRange(record, at + 1, record.length));
      }
      case BYTE_MORE -> {
        byte[] begin = Arrays.copyOf(record, at + 1);
        begin[at] = (byte) random.nextInt(256);
        return joined(begin, Arrays.copyOfRange(record, at, record.length));
      }
      case CUT_ANYWHERE -> {
        return Arrays.copyOf(record, at);
      }
      case LINE_LOST -> lines.remove(line);
      case LINE_TWICE -> lines.add(line, lines.get(random.nextInt(last)));
      case LINES_SWAPPED -> Collections.swap(lines, line, line + 1);
      case CUT_AT_LINE -> lines = new ArrayList<>(lines.subList(0, line + 1));
      case ANEW_BYTE -> {
        String text = lines.get(line);
        int body = text.indexOf("\"body\":{") + 8;
        int where = body + random.nextInt(text.lastIndexOf(",\"check\"") - body);
        char letter = (char) ('!' + random.nextInt(90));
        lines.set(line, text.substring(0, where) + letter + text.substring(where + 1));
        return bytes(anew(lines));
      }
      case ANEW_LINE_LOST -> {
        lines.remove(line);
        return bytes(anew(lines));
      }
      case ANEW_SWAPPED -> {
        Collections.swap(lines, line, last);
        return bytes(anew(lines));
      }
      case ANEW_ADDED -> {
        lines.add(lines.get(line));
        return bytes(anew(lines));
      }
      case OTHERS_LINE -> lines.set(line, lines(others).get(line));
      case OTHERS_RECORD, NAMES_EXCHANGED -> {
        return others.clone();
      }
      default -> {
        return record;
      }
    }
    return bytes(String.join("", lines));
  }

  private static byte[] seal(Change change, byte[] seal, Random random) {
    if (change == Change.SEAL_BYTE) {
      byte[] changed = seal.clone();
      changed[random.nextInt(seal.length)] ^= (byte) (1 << random.nextInt(8));
      return changed;
    }
    return change == Change.SEAL_CUT ? Arrays.copyOf(seal, random.nextInt(seal.length)) : seal;
  }

  /** With check values that fit, as who knows the format makes them. */
  private static String anew(List<String> lines) {
    Chain chain = new Chain();
    StringBuilder text = new StringBuilder();
    String previous = Chain.START;
    for (String line : lines) {
      String body = line.substring(0, line.lastIndexOf(",\"check\":\""));
      previous = chain.next(previous, body);
      text.append(body).append(",\"check\":\"").append(previous).append("\"}\n");
    }
    return text.toString();
  }

  private static long firstDifference(byte[] record, byte[] changed) {
    int at = Arrays.mismatch(record, changed);
    long line = 1;
    for (int i = 0; i < at; i++) {
      line += record[i] == '\n' ? 1 : 0;
    }
    return line;
  }

  /** Each with its line end. */
  private static List<String> lines(byte[] record) {
    String text = new String(record, StandardCharsets.UTF_8);
    return new ArrayList<>(Arrays.asList(text.split("(?<=\n)")));
  }

  private static byte[] joined(byte[] one, byte[] two) {
    byte[] all = Arrays.copyOf(one, one.length + two.length);
    System.arraycopy(two, 0, all, one.length, two.length);
    return all;
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
