package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.benchstroke.app.ExitCode;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.Seal;
import org.benchstroke.record.SealFile;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Whatever way a run ends, its record is sealed, or it is said why not; nothing else changes. */
@Timeout(300)
class SealedEndsTest {
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      """;

  @TempDir Path folder;

  private Command run(String unit, KeyPlace keys) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators", unit + ".toml"));
    LeapingClock clock = new LeapingClock();
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation), clock.followed(), Map.of())) {
      return Command.keyed(
          keys,
          clock,
          Command.runArguments(
              Files.writeString(folder.resolve("bench.toml"), server.benchToml()),
              simulation.unitTypeFile(),
              Files.writeString(folder.resolve("brief.toml"), BRIEF),
              records()));
    }
  }

  private Path records() {
    return folder.resolve("records");
  }

  private Path record() throws IOException {
    return ShortRun.recordIn(records());
  }

  private String beside(String end) throws IOException {
    try (Stream<Path> files = Files.list(records())) {
      return Files.readString(files.filter(f -> f.toString().endsWith(end)).findFirst().get());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "healthy-b, complete",
    "reversed-action, action reversed",
    "loop-resistance-too-high, preflight failed"
  })
  void aRunIsSealedHoweverItEnds(String unit, String how) throws Exception {
    Command run = run(unit, Command.KEYS);
    assertThat(run.err()).isEmpty();
    assertThat(run.out()).contains("Sealed by key ").doesNotContain("not sealed");
    RunRecord read = RecordReader.read(record());
    assertThat(read.closed().orElseThrow().how()).isEqualTo(how);
    assertThat(read.seal().map(Seal::state)).contains(Seal.State.SEALED);
    assertThat(beside(".json")).contains("\"seal\" : \"sealed\"");
    assertThat(Command.run("verify", record()).code()).isZero();
  }

  @Test
  void aRunThatIsStoppedIsSealedAndOneThatIsKilledIsNot() throws Exception {
    try (SimulatorServer server =
        SimulatorServer.start(
            SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml"))),
            SystemClock.scaled(20),
            Map.of())) {
      Path bench = Files.writeString(folder.resolve("bench.toml"), server.benchToml());
      Path stopped = ended(bench, "stopped", false);
      assertThat(RecordReader.read(stopped).closed().orElseThrow().how()).isEqualTo("stopped");
      assertThat(SealFile.check(stopped).state()).isEqualTo(Seal.State.SEALED);

      Path killed = ended(bench, "killed", true);
      assertThat(RecordReader.read(killed).closed()).isEmpty();
      assertThat(SealFile.check(killed).state()).isEqualTo(Seal.State.NOT_SEALED);
      assertThat(Command.run("verify", killed).code()).isEqualTo(1);
      assertThat(Command.run("judge", killed).out())
          .contains("! not sealed: there is no seal beside it", "interrupted");
    }
  }

  private Path ended(Path bench, String name, boolean killed) throws Exception {
    Path own = Files.createDirectory(folder.resolve(name));
    try (RecordTail tail = new RecordTail(own)) {
      Process run =
          Command.program(Command.runArguments(bench, ShortRun.TYPE, own))
              .redirectErrorStream(true)
              .redirectOutput(folder.resolve(name + ".txt").toFile())
              .start();
      try {
        tail.await("\"kind\":\"rested\"");
        if (!killed) {
          run.destroy();
          assertThat(run.waitFor(60, TimeUnit.SECONDS)).isTrue();
          assertThat(run.exitValue()).isEqualTo(ExitCode.NOT_COMPLETED);
        }
      } finally {
        run.destroyForcibly();
      }
      assertThat(run.waitFor(60, TimeUnit.SECONDS)).isTrue();
    }
    return ShortRun.recordIn(own);
  }

  /** What can be wrong with the key. */
  @ParameterizedTest
  @ValueSource(strings = {"no folder", "for everyone", "passphrase", "no key store"})
  void aKeyThatCantBeUsedFailsNoRun(String what) throws Exception {
    Path place = folder.resolve("keys");
    KeyPlace keys = new KeyPlace(place, Optional.empty());
    String why =
        switch (what) {
          case "no folder" -> {
            Files.writeString(place, "a file");
            yield "a file is in its way";
          }
          case "for everyone" -> {
            keys.keys().open("");
            Files.setPosixFilePermissions(
                keys.keys().store(), PosixFilePermissions.fromString("rw-r--r--"));
            yield "others than its owner may read or write it";
          }
          case "passphrase" -> {
            keys.keys().open("right words");
            keys = new KeyPlace(place, Optional.of("wrong words"));
            yield "has another passphrase";
          }
          default -> {
            Files.createDirectory(place);
            Files.writeString(keys.keys().store(), "none");
            Files.setPosixFilePermissions(
                keys.keys().store(), PosixFilePermissions.fromString("rw-------"));
            yield "can't be read as a key store";
          }
        };
    Command unsealed = run("healthy-b", keys);
    assertThat(unsealed.err())
        .startsWith("The record is not sealed: ")
        .contains(why)
        .doesNotContain("words")
        .hasLineCount(1);
    assertThat(unsealed.out())
        .contains("Safe signal: confirmed", "! not sealed: there is no seal beside it");
    assertThat(beside(".json")).contains("\"seal\" : \"not sealed\"");
    assertThat(beside(".html")).contains("NOT SEALED: ");
    Path without = record();
    assertThat(SealFile.of(without)).doesNotExist();
    assertThat(Files.readString(without)).doesNotContain("words");
    // The same run with a key ends in the same way.
    Files.move(records(), folder.resolve("before"));
    assertThat(run("healthy-b", Command.KEYS).code()).isEqualTo(unsealed.code());
  }
}
