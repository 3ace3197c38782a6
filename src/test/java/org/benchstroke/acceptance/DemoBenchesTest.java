package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.run.RunEnded;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Each bench file of the demo data, played by the simulator: its languages, register maps, serial
 * numbers and accuracies, at the very addresses that it names, on the virtual clock.
 */
class DemoBenchesTest {
  private static final Path BENCHES = Path.of("demo-data/benches");

  static List<Path> benches() throws IOException {
    try (Stream<Path> files = Files.list(BENCHES)) {
      // A bench by hand needs a person, and a logger's file has been recorded: each has a test of
      // its own.
      return files
          .filter(file -> file.toString().endsWith(".toml"))
          .filter(file -> !file.endsWith("by-hand.toml") && !file.endsWith("logger.toml"))
          .sorted()
          .toList();
    }
  }

  @ParameterizedTest
  @MethodSource("benches")
  void aHealthyUnitPassesOnEachBench(Path file) throws FileMistakes {
    VirtualBench bench = VirtualBench.with("healthy-b", file);
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(run.verdict()).as(run.sentences().toString()).isEqualTo(Word.PASS);
    assertThat(run.passed()).isTrue();
    assertThat(run.record().events(Event.Checked.class)).isNotEmpty();
    boolean angle = BenchFileReader.read(file).playing(Role.ANGLE_REFERENCE).isPresent();
    assertThat(run.stemProven()).isEqualTo(angle);
  }

  @Test
  void aFaultIsFoundOnAnotherBenchToo() {
    JudgedRun run =
        VirtualBench.with("span-error", BENCHES.resolve("four-wire-feedback.toml")).judge();

    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(finding -> finding.contains("span"));
  }

  @Test
  void theVoltageOfTheSourceIsTheBenchFiles() {
    VirtualBench strong =
        VirtualBench.with("loop-resistance-too-high", BENCHES.resolve("four-wire-feedback.toml"));
    strong.run();

    // 24 V into 700 Ω: 34 mA by Ohm's law, so that 20 mA flow.
    assertThat(strong.result().how()).isNotEqualTo(RunEnded.How.PREFLIGHT_FAILED);
  }
}
