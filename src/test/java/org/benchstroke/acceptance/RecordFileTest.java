package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import org.benchstroke.Counted;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Elsewhere;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Real record files, torn and damaged: nothing of that ever makes a pass. */
class RecordFileTest {
  private static final byte[] FLIPS = {0x07, 0x20, (byte) 0x80};

  /** The records that are only read and cut are made once: each forces its lines to the disk. */
  @TempDir static Path shared;

  private static final Map<String, Path> RECORDS = new ConcurrentHashMap<>();

  @TempDir Path folder;

  @Test
  void aPassingRecordPassesWhenItIsReadBack() throws Exception {
    RunRecord record = RecordReader.read(shared("healthy-b"));
    assertThat(record.flaws()).isEmpty();
    assertThat(VirtualBench.judge(record).passed()).isTrue();
  }

  /** Bytes of the last lines, and a spread before. */
  @Test
  void aPassingRecordCutAnywhereNeverPasses() throws Exception {
    Path whole = shared("healthy-b");
    byte[] bytes = Files.readAllBytes(whole);
    RunRecord sound = RecordReader.read(whole);
    List<Integer> ends = ends(bytes);
    int first = ends.get(0);
    IntStream spread =
        IntStream.range(1, 30).map(i -> first + (int) ((bytes.length - first) * (i / 30.0)));
    IntStream last = IntStream.range(bytes.length - 800, bytes.length).filter(n -> drawn(n, ends));

    // Judged once for each different record: most cuts tear the same few lines.
    Map<List<Object>, RunRecord> different = new ConcurrentHashMap<>();
    IntStream.concat(spread, last)
        .parallel()
        .mapToObj(length -> assertCut(bytes, ends, length, sound))
        .forEach(r -> different.putIfAbsent(List.of(r.entries().size(), r.flaws()), r));

    assertThat(different).hasSizeGreaterThan(30);
    for (RunRecord record : different.values()) {
      JudgedRun run = VirtualBench.judge(record);
      assertThat(run.passed()).isFalse();
      assertThat(run.complete()).isFalse();
      assertThat(run.verdict()).isNotEqualTo(Word.PASS);
      assertThat(run.reason()).containsAnyOf("torn", "interrupted");
    }
  }

  /** A short record, with all that is counted at every single byte. */
  @Test
  void aRecordCutAtAnyByteIsReadAsFarAsItIsWhole() throws Exception {
    Path whole = shared("loop-resistance-too-high");
    byte[] bytes = Files.readAllBytes(whole);
    RunRecord sound = RecordReader.read(whole);
    List<Integer> ends = ends(bytes);
    int first = ends.get(0);
    IntStream.range(first, bytes.length)
        .filter(n -> drawn(n, ends))
        .parallel()
        .forEach(n -> assertCut(bytes, ends, n, sound));
    for (int length = 0; length < first; length += 97) {
      Path cut = write("begin" + length, Arrays.copyOf(bytes, length));
      assertThatThrownBy(() -> RecordReader.read(cut)).isInstanceOf(RecordReader.NotARecord.class);
    }
  }

  /** Always where a line ends, and just before and after. */
  private static boolean drawn(int at, List<Integer> ends) {
    return Counted.draws(at) || ends.stream().anyMatch(end -> Math.abs(at - end) <= 1);
  }

  private RunRecord assertCut(byte[] bytes, List<Integer> ends, int length, RunRecord sound) {
    RunRecord read = readOnce("cut" + length, Arrays.copyOf(bytes, length));
    int wholeLines = (int) ends.stream().filter(end -> end <= length).count();
    boolean torn = !ends.contains(length);
    assertThat(read.entries())
        .as("cut at %d", length)
        .isEqualTo(sound.entries().subList(0, wholeLines));
    assertThat(read.closed()).as("cut at %d", length).isEmpty();
    if (torn) {
      assertThat(read.flaws()).as("cut at %d", length).hasSize(1);
      assertThat(read.flaws().get(0)).contains("last line (" + (wholeLines + 1) + ") is torn");
    } else {
      assertThat(read.flaws()).as("cut at %d", length).isEmpty();
    }
    return read;
  }

  /** Low, middle and highest bits in turn. */
  @Test
  void aFlippedByteIsFoundAndNothingAfterItIsUsed() throws Exception {
    Path whole = shared("loop-resistance-too-high");
    byte[] bytes = Files.readAllBytes(whole);
    RunRecord sound = RecordReader.read(whole);
    List<Integer> ends = ends(bytes);
    IntStream.range(ends.get(0), bytes.length)
        .filter(n -> drawn(n, ends))
        .parallel()
        .forEach(
            at -> {
              byte[] damaged = bytes.clone();
              damaged[at] ^= FLIPS[at % FLIPS.length];
              RunRecord read = readOnce("flip" + at, damaged);
              int before = (int) ends.stream().filter(end -> end <= at).count();
              assertThat(read.entries())
                  .as("byte %d of line %d", at, before + 1)
                  .isEqualTo(sound.entries().subList(0, before));
              assertThat(read.flaws()).as("byte %d", at).hasSize(1);
              assertThat(read.flaws().get(0)).contains(String.valueOf(before + 1));
            });
    for (int at = 0; at < ends.get(0); at += 61) {
      byte[] damaged = bytes.clone();
      damaged[at] ^= FLIPS[at % FLIPS.length];
      Path file = write("begin" + at, damaged);
      assertThatThrownBy(() -> RecordReader.read(file))
          .as("byte %d", at)
          .isInstanceOf(RecordReader.NotARecord.class);
    }
  }

  @Test
  void aDamagedPassNeverPasses() throws Exception {
    byte[] bytes = Files.readAllBytes(shared("healthy-b"));
    List<Integer> ends = ends(bytes);
    int first = ends.get(0);
    for (int i = 1; i < 40; i++) {
      byte[] damaged = bytes.clone();
      damaged[first + (int) ((bytes.length - first) * (i / 40.0))] ^= 0x04;
      JudgedRun run = VirtualBench.judge(readOnce("damaged" + i, damaged));
      assertThat(run.passed()).isFalse();
      assertThat(run.verdict()).isNotEqualTo(Word.PASS);
      assertThat(run.reason()).contains("damaged from line");
    }
  }

  @Test
  void aRecordWithoutItsClosingLineIsAnInterruptedRun() throws Exception {
    byte[] bytes = Files.readAllBytes(shared("healthy-b"));
    List<Integer> ends = ends(bytes);
    Path open = write("open", Arrays.copyOf(bytes, ends.get(ends.size() - 2)));
    assertThat(RecordHeading.read(open).closed()).isEmpty();
    assertThat(RecordHeading.read(shared("healthy-b")).closed()).isPresent();
    JudgedRun run = VirtualBench.judge(RecordReader.read(open));
    assertThat(run.passed()).isFalse();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason()).contains("interrupted");
  }

  @ParameterizedTest
  @ValueSource(strings = {"healthy-b", "slack-after-sensor"})
  void aSeedReproducesEveryByte(String simulation) throws Exception {
    Path one = shared(simulation);
    Path two = record(simulation, "two");
    Path elsewhere = Elsewhere.call(() -> record(simulation, "elsewhere"));

    assertThat(Files.mismatch(one, two)).isEqualTo(-1);
    assertThat(Files.mismatch(one, elsewhere)).isEqualTo(-1);
    String json = json(one);
    assertThat(json(two)).isEqualTo(json);
    assertThat(Elsewhere.call(() -> json(one))).isEqualTo(json);
  }

  private static String json(Path file) {
    return new JsonReport().json(new TwinAndCauses(VirtualBench.judge(read(file))));
  }

  private static Path shared(String simulation) {
    return RECORDS.computeIfAbsent(
        simulation, name -> VirtualBench.with(name).runInto(shared.resolve(name + ".jsonl")));
  }

  private Path record(String simulation, String name) {
    return VirtualBench.with(simulation).runInto(folder.resolve(name + ".jsonl"));
  }

  private Path write(String name, byte[] bytes) {
    try {
      return Files.write(folder.resolve(name + ".jsonl"), bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private RunRecord readOnce(String name, byte[] bytes) {
    Path file = write(name, bytes);
    RunRecord read = read(file);
    try {
      Files.delete(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return read;
  }

  private static RunRecord read(Path file) {
    try {
      return RecordReader.read(file);
    } catch (RecordReader.NotARecord e) {
      throw new AssertionError(e.getMessage(), e);
    }
  }

  /** Where each line is over: the lengths at which a file ends with a whole line. */
  private static List<Integer> ends(byte[] bytes) {
    List<Integer> ends = new ArrayList<>();
    for (int i = 0; i < bytes.length; i++) {
      if (bytes[i] == '\n') {
        ends.add(i + 1);
      }
    }
    return ends;
  }
}
