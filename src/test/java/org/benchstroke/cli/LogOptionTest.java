package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** A log in a file, and a file where the program itself failed. */
class LogOptionTest {
  @TempDir Path folder;

  @AfterEach
  void noMore() {
    CrashFile.nowhere();
  }

  private Path log() {
    return folder.resolve("run.log");
  }

  /** What a probe says over the wire is in the log, and nothing of it on the terminal. */
  @Test
  void whatWentOverTheWireIsInTheLog() throws Exception {
    LeapingClock clock = new LeapingClock();
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (SimulatorServer server = SimulatorServer.start(unit, clock.followed(), Map.of())) {
      Path bench = folder.resolve("bench.toml");
      Files.writeString(bench, ShortRun.patient(server.benchToml()));
      Object[] probe = {"probe", "--bench", bench, "--seconds", "0.1", "--json", "--log", log()};
      Command probed = Command.run(clock, probe);
      assertThat(probed.err()).isEmpty();
      assertThat(probed.out().lines()).hasSize(1);
      String text = Files.readString(log());
      assertThat(text)
          .startsWith("# benchstroke log, benchstroke")
          .containsPattern("(?m)^\\d{4}-\\d\\d-\\d\\dT\\S+Z DEBUG WireLog: tcp://\\S+ open$")
          .containsPattern("WireLog: tcp://\\S+ sent \"\\*IDN\\?\\\\n\"")
          .containsPattern("WireLog: tcp://\\S+ came \"")
          .contains("ended with exit code " + probed.code());

      Object[] quiet = Stream.concat(Stream.of(probe), Stream.of("--log-level", "warn")).toArray();
      Command.run(clock, quiet);
      assertThat(Files.readString(log()))
          .startsWith(text)
          .hasLineCount((int) text.lines().count() + 1);
    }
  }

  @Test
  void aFileThatIsNoLogIsKept() throws Exception {
    Files.writeString(log(), "kind = \"bench\"\n");
    Command check = Command.run("--log", log(), "check", "demo-data/benches/by-hand.toml");
    assertThat(check.code()).isEqualTo(2);
    assertThat(check.err()).contains("exists, and is not a log of this program");
    assertThat(Files.readString(log())).isEqualTo("kind = \"bench\"\n");
    assertThat(Command.run("ports", "--log-level", "info").err()).contains("goes with --log FILE");
    Path fresh = folder.resolve("fresh.log");
    assertThat(Command.run("ports", "--log", fresh, "--log-level", "loud").err())
        .contains("--log-level: found \"loud\", allowed are error, warn, info, debug, trace");
    assertThat(Command.run("ports", "--log", folder.resolve("no/such/place.log")).code())
        .isEqualTo(2);
  }

  /** A mistake in the request is no failure of the program; both stand in the log. */
  @Test
  void whyACommandEndedIsInTheLog() throws Exception {
    Command judge = Command.run("judge", folder.resolve("none.jsonl"), "--log", log());
    assertThat(judge.code()).isEqualTo(2);
    assertThat(Files.readString(log())).contains("it failed", "NotARecord");
  }

  @Test
  void aFailureOfTheProgramNamesAFileWithItsStack() throws Exception {
    CrashFile.into(folder, List.of("run", "--archive", "postgresql://ann:secret@db/shop"));
    CommandLine line = CommandLines.all();
    java.io.StringWriter err = new java.io.StringWriter();
    line.setErr(new java.io.PrintWriter(err, true));
    IllegalStateException failure = new IllegalStateException("made for a test");
    assertThat(Mistakes.told(failure, line, line.parseArgs("ports"))).isEqualTo(3);
    Path file;
    try (Stream<Path> files = Files.list(folder)) {
      file = files.findFirst().orElseThrow();
    }
    assertThat(err.toString())
        .contains("benchstroke failed", "What happened inside is in " + file + ".")
        .doesNotContain("\tat ");
    assertThat(Files.readString(file))
        .contains("made for a test", "\tat ", "aFailureOfTheProgramNamesAFileWithItsStack")
        .contains("--archive, postgresql://…@db/shop")
        .doesNotContain("secret");
    // What failed once mostly fails again: one file for each process.
    assertThat(CrashFile.write(failure)).isEmpty();
  }

  /** A run that ends in safety although the program failed leaves its stack, too. */
  @Test
  void whatIsLoggedAsAnErrorHasAFile() throws Exception {
    CrashFile.into(folder, List.of("run"));
    org.slf4j.LoggerFactory.getLogger(LogOptionTest.class)
        .error("the program failed during a test", new IllegalStateException("made for a test"));
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(Files.readString(files.findFirst().orElseThrow())).contains("made for a test");
    }
  }
}
