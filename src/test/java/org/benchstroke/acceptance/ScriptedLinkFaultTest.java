package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;
import static org.benchstroke.acceptance.Scripted.fault;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.RunEnded;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whole runs on links whose faults the simulation file scripts: none makes a wrong pass. */
class ScriptedLinkFaultTest {
  private static final Path RTU_LINE = Path.of("src/test/resources/benches/one-rs485-line.toml");
  private static final Path LINE_BENCH = Path.of("demo-data/benches/line-bench.toml");
  private static final String STROKE = "stroke time";
  private static final double SAFE_MILLIAMPS = 4.0;

  private static final Map<String, String> DELAYS =
      Map.of("late", "\nlate_ms = 600", "slow bytes", "\nbyte_ms = 100");

  private static final String BRIEF =
      """
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  /**
   * Kind and further keys, whether the run can go on after it, and the words of which one is told.
   */
  static Stream<Arguments> kinds() {
    return Stream.of(
        Arguments.of("drop", "for_s = 0.2", true, "no reply|gap"),
        Arguments.of("late", "for_s = 0.2\nlate_ms = 800", true, "no reply|late reply|gap"),
        Arguments.of("late", "for_s = 0.2\nlate_ms = 450", true, "gap"),
        Arguments.of("slow bytes", "for_s = 0.2\nbyte_ms = 250", true, "no reply|cut frame|gap"),
        Arguments.of("one behind", "for_s = 0.2", true, "late reply"),
        Arguments.of("cut", "for_s = 0.2", true, "cut frame"),
        Arguments.of("garbage", "for_s = 0.2", false, "not Modbus TCP|garbage|wrong"),
        Arguments.of("exception", "for_s = 0.2", false, "exception 04, server device failure"),
        Arguments.of("freeze", "for_s = 6", false, "frozen value|impossible slew"),
        Arguments.of("reset", "for_s = 0.2", true, "port gone"),
        Arguments.of("half open", "for_s = 0.2", true, "no reply"),
        Arguments.of("unplug", "for_s = 2", true, "port gone"));
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("kinds")
  void inAStrokeEachKindIsToldAndNeverPassesWrongly(
      String kind, String keys, boolean comesBack, String words) {
    String at = fault("position input", kind, "from_s = " + middleOfStroke() + "\n" + keys);
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", at)).tests(BRIEF);
    RunRecord record = bench.run();

    assertThat(told(record)).as(kind).isNotEmpty().anyMatch(text -> isOneOf(words, text));
    assertSafe(bench);
    JudgedRun run = VirtualBench.judge(record);
    if (comesBack || bench.result().how() == RunEnded.How.COMPLETE) {
      assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
      assertThat(outcomes(record)).containsExactly("void", "complete");
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
    } else {
      assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
      assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    }
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("kinds")
  void aFaultyUnitNeverPasses(String kind, String keys, boolean comesBack, String words) {
    String at = fault("position input", kind, "from_s = " + middleOfStroke() + "\n" + keys);
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("zero-shift", at)).tests(BRIEF);
    JudgedRun run = bench.judge();
    assertThat(run.verdict()).isIn(Word.FAIL, Word.NO_RESULT);
    assertSafe(bench);
  }

  /** Every kind that lasts: no measure of what was never heard. */
  @ParameterizedTest
  @MethodSource("lasting")
  void whatLastsHasNoResult(String kind, String keys) {
    String at = fault("position input", kind, "from_s = " + middleOfStroke() + "\n" + keys);
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", at)).tests(BRIEF);
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(
            run.judgements().stream()
                .map(Judgement::measure)
                .filter(m -> m.kind() == MeasureKind.STROKE_TIME_OPENING)
                .toList())
        .isNotEmpty()
        .allMatch(m -> m.value().isEmpty());
    // The source is on another link.
    assertThat(bench.trueLoopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(0.02));
  }

  static Stream<Arguments> lasting() {
    return Stream.of(
        Arguments.of("drop", "for_s = 100000"),
        Arguments.of("late", "for_s = 100000\nlate_ms = 900"),
        Arguments.of("slow bytes", "for_s = 100000\nbyte_ms = 250"),
        Arguments.of("one behind", "for_s = 100000"),
        Arguments.of("half open", "for_s = 100000"),
        Arguments.of("cut", "for_s = 100000"),
        Arguments.of("garbage", "for_s = 100000"),
        Arguments.of("exception", "for_s = 100000"),
        Arguments.of("freeze", "for_s = 100000"),
        Arguments.of("reset", "for_s = 100000"),
        Arguments.of("unplug", "for_s = 100000"));
  }

  /** Every kind on every link at once, by chance, on benches of three languages. */
  static Stream<Arguments> storms() {
    return Stream.of(
            "drop",
            "late",
            "slow bytes",
            "one behind",
            "bad CRC",
            "cut",
            "garbage",
            "exception",
            "freeze",
            "reset",
            "half open")
        .flatMap(
            kind ->
                Stream.of(Optional.<Path>empty(), Optional.of(RTU_LINE), Optional.of(LINE_BENCH))
                    .filter(bench -> !kind.equals("bad CRC") || bench.equals(Optional.of(RTU_LINE)))
                    .filter(
                        bench ->
                            !kind.equals("exception") || !bench.equals(Optional.of(LINE_BENCH)))
                    .map(bench -> Arguments.of(kind, bench)));
  }

  @ParameterizedTest
  @MethodSource("storms")
  void noStormMakesAWrongVerdict(String kind, Optional<Path> benchFile) {
    for (double probability : new double[] {0.0005, 0.01}) {
      String keys = "probability = " + probability + DELAYS.getOrDefault(kind, "");
      VirtualBench sound = storm("healthy-b", fault("all", kind, keys), benchFile);
      JudgedRun run = sound.judge();
      assertThat(run.verdict()).as(run.reason()).isIn(Word.PASS, Word.NO_RESULT);
      if (sound.result().how() == RunEnded.How.COMPLETE) {
        assertSafe(sound);
      }
      VirtualBench shifted = storm("zero-shift", fault("all", kind, keys), benchFile);
      assertThat(shifted.judge().verdict()).isIn(Word.FAIL, Word.NO_RESULT);
    }
  }

  private static VirtualBench storm(String name, String faults, Optional<Path> benchFile) {
    Simulation unit = VirtualBench.simulation(name, faults);
    return benchFile
        .map(file -> VirtualBench.with(unit, file))
        .orElseGet(() -> VirtualBench.with(unit))
        .tests(BRIEF);
  }

  @Test
  void aBadCheckValueOnASerialLineIsTold() throws FileMistakes {
    String at = fault("all", "bad CRC", "exchange = 200");
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b", at), RTU_LINE).tests(BRIEF);
    RunRecord record = bench.run();
    assertThat(told(record)).anyMatch(text -> text.contains("bad CRC"));
    assertSafe(bench);
    Word verdict = VirtualBench.judge(record).verdict();
    assertThat(verdict).isIn(Word.PASS, Word.NO_RESULT);
  }

  @Test
  void chancesComeFromTheSeed() {
    String now = fault("all", "drop", "probability = 0.002");
    Simulation noisy = VirtualBench.simulation("healthy-b", now);
    List<Entry> once = VirtualBench.with(noisy).tests(BRIEF).run().entries();
    assertThat(VirtualBench.with(noisy).tests(BRIEF).run().entries()).isEqualTo(once);
    Simulation other = noisy.withSeed(2);
    assertThat(VirtualBench.with(other).tests(BRIEF).run().entries()).isNotEqualTo(once);
    assertThat(told(new RunRecord(once, List.of()))).isNotEmpty();
  }

  /** The file in simulators/: a gap in a stroke is void and run again, never interpolated. */
  @Test
  void theBadLinkOfTheCollection() {
    VirtualBench bench = VirtualBench.with("bad-link");
    RunRecord record = bench.run();
    assertThat(outcomes(record)).containsExactly("void", "complete");
    assertThat(told(record)).anyMatch(text -> text.contains("no reply"));
    assertSafe(bench);
    assertThat(VirtualBench.judge(record).verdict()).isEqualTo(Word.PASS);
  }

  @Test
  void aFaultOnAnUnknownInstrumentIsOneMistake() {
    Simulation unknown =
        VirtualBench.simulation("healthy-b", fault("positon input", "drop", "exchange = 1"));
    FileMistakes mistakes =
        catchThrowableOfType(FileMistakes.class, () -> SimulatedBench.builtIn(unknown));
    assertThat(mistakes.mistakes()).hasSize(1);
    assertThat(mistakes.mistakes().get(0).text())
        .contains("healthy-b.toml")
        .contains(":" + unknown.faults().get(0).line())
        .contains("fault[1].on")
        .contains("found \"positon input\"")
        .contains("\"source\" or \"loop meter\" or \"position input\" or \"all\"");
  }

  @Test
  void aFaultThatTheLanguageCannotHaveIsOneMistake() {
    Simulation scpi =
        VirtualBench.simulation("healthy-b", fault("source", "exception", "exchange = 1"));
    FileMistakes mistakes =
        catchThrowableOfType(FileMistakes.class, () -> SimulatedBench.builtIn(scpi));
    assertThat(mistakes.getMessage())
        .contains("fault[1].kind")
        .contains("source does not speak modbus tcp or modbus rtu");
  }

  static Stream<Arguments> badKeys() {
    return Stream.of(
        Arguments.of("drop", "", "found 0 of exchange, from_s and probability"),
        Arguments.of("drop", "exchange = 1\nprobability = 0.1", "found 2 of exchange, from_s"),
        Arguments.of("drop", "probability = 1.5", "0 to 1"),
        Arguments.of("drop", "exchange = 0", "1 to 1000000000"),
        Arguments.of("drop", "exchanges = 2\nprobability = 0.1", "needs exchange"),
        Arguments.of("drop", "from_s = 1", "from_s and for_s need each other"),
        Arguments.of("drop", "exchange = 1\nlate_ms = 5", "belongs to kind = \"late\""),
        Arguments.of("late", "exchange = 1", "is missing"),
        Arguments.of("slow bytes", "exchange = 1", "byte_ms: is missing"),
        Arguments.of("late", "exchange = 1\nlate_ms = 5\nbyte_ms = 5", "\"slow bytes\"; delete it"),
        Arguments.of("unplug", "exchange = 1", "lasts for a time"),
        Arguments.of("lost", "exchange = 1", "\"drop\""));
  }

  @ParameterizedTest
  @MethodSource("badKeys")
  void badKeysAreOneMistake(String kind, String keys, String words) {
    FileMistakes mistakes =
        catchThrowableOfType(
            FileMistakes.class,
            () -> {
              Path file = VirtualBench.SIMULATORS.resolve("healthy-b.toml");
              String text = Files.readString(file) + fault("source", kind, keys);
              SimulationReader.read(file, text);
            });
    assertThat(mistakes.mistakes()).as(mistakes.getMessage()).hasSize(1);
    assertThat(mistakes.getMessage()).contains("fault[1]").contains(words);
  }

  /** When the sound unit is half open in the first stroke, s of the bench. */
  private static double middleOfStroke() {
    return Scripted.middleOfStroke(VirtualBench.with("healthy-b").tests(BRIEF).run(), 1);
  }

  private static void assertSafe(VirtualBench bench) {
    assertThat(bench.result().safe().confirmed()).as(bench.result().reason()).isTrue();
    assertThat(bench.trueLoopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(0.02));
  }

  private static List<String> outcomes(RunRecord record) {
    return record
        .events(Event.TestEnded.class)
        .filter(e -> e.test().equals(STROKE))
        .map(Event.TestEnded::outcome)
        .toList();
  }

  private static List<String> told(RunRecord record) {
    return record.entries().stream()
        .map(ScriptedLinkFaultTest::told)
        .flatMap(Optional::stream)
        .toList();
  }

  private static Optional<String> told(Entry entry) {
    if (entry.event() instanceof Event.Faulted f) {
      return Optional.of(f.fault() + ": " + f.detail());
    }
    return entry.event() instanceof Event.Sampled s && s.raw().contains(" after ")
        ? Optional.of(s.raw())
        : Optional.empty();
  }

  private static boolean isOneOf(String words, String text) {
    return Stream.of(words.split("\\|", -1)).anyMatch(text::contains);
  }
}
