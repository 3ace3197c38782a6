package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.benchstroke.DebianProgram;
import org.benchstroke.app.ExitCode;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A terminal that takes nothing more, in the middle of a run, with the program as a process of its
 * own and the simulated bench on sockets of this one: the run goes on, and every stop is heeded.
 */
@Timeout(300)
class StalledTerminalTest {
  private static final double SAFE_MILLIAMPS = 4.0;
  private static final String MIDDLE = "travel 20 up";
  private static final String LATER = "travel 60 up";
  private static final String XOFF = "\u0013";
  private static final String XON = "\u0011";

  private static final String PROCEDURE =
      """
      kind = "procedure"
      format = 1
      name = "Short"
      version = "1"
      [[test]]
      test = "travel error"
      points_pct = [10, 20, 40, 60, 100]
      cycles = %d
      """;

  /** A run that is stopped long before its end, and what it has measured counts for nothing. */
  private static final int LONG = 10;

  private static final double HASTY = 30;

  /**
   * One that comes to it: so fast that a busy machine still keeps up, for some of them must pass.
   */
  private static final int BRIEF = 1;

  private static final double STEADY = 10;

  @TempDir Path folder;

  private SimulatedBench bench;
  private Optional<SimulatorServer> served = Optional.empty();

  @BeforeEach
  void begin() throws Exception {
    Files.createDirectory(records());
  }

  private SimulatorServer serve(double scale) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    bench = SimulatedBench.of(simulation);
    SimulatorServer server = SimulatorServer.start(bench, SystemClock.scaled(scale), Map.of());
    served = Optional.of(server);
    return server;
  }

  private Object[] run(int cycles) throws Exception {
    SimulatorServer server = serve(cycles == BRIEF ? STEADY : HASTY);
    String type = Files.readString(ShortRun.TYPE).replaceAll("(?s)\\[limits].*", "");
    return Command.runArguments(
        Files.writeString(folder.resolve("bench.toml"), ShortRun.patient(server.benchToml())),
        Files.writeString(
            folder.resolve("type.toml"),
            type + "[limits]\ntravel_error_pct = 1.0\n" + ShortRun.VERY_PATIENT),
        Files.writeString(folder.resolve("procedure.toml"), PROCEDURE.formatted(cycles)),
        records());
  }

  @AfterEach
  void close() {
    served.ifPresent(SimulatorServer::close);
  }

  /** Ctrl-S as it is typed: what a shell's terminal does with it. */
  @ParameterizedTest
  @ValueSource(strings = {"TERM", "INT", "HUP"})
  void aSignalStopsARunWhoseOutputWasStopped(String signal) throws Exception {
    try (RecordTail tail = new RecordTail(records());
        TerminalSession person = TerminalSession.at(80, run(LONG)).begin()) {
      tail.await(MIDDLE);
      person.type(XOFF);
      tail.await(LATER);
      assertThat(bench.truth().loopMilliamps()).isGreaterThan(SAFE_MILLIAMPS + 1);
      person.signal(signal);
      assertThat(person.awaitEnd()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertStoppedSafely();
    }
  }

  @Test
  void aRunWhoseOutputWasStoppedComesToItsEndAndIsShownAfterwards() throws Exception {
    try (RecordTail tail = new RecordTail(records());
        TerminalSession person = TerminalSession.at(80, run(BRIEF)).begin()) {
      tail.await(MIDDLE);
      person.type(XOFF);
      tail.await("\"kind\":\"closed\"");
      assertThat(bench.truth().loopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(0.1));
      person.type(XON);
      assertThat(person.awaitShown("Record:"))
          .contains("PASSED", "Safe signal: confirmed, the source reads");
      assertThat(person.awaitEnd()).isZero();
    }
  }

  /**
   * The simulator of a demo over sockets is a process at the same terminal, and a signal to all is
   * its too.
   */
  @ParameterizedTest
  @CsvSource({
    "Ctrl-C, false",
    "TERM, false",
    "HUP, false",
    "Ctrl-C, true",
    "TERM, true",
    "HUP, true"
  })
  void whatEndsADemoStillFindsTheBenchToMakeItSafe(String end, boolean overSockets)
      throws Exception {
    try (TerminalSession person = overSockets ? demo("--over-sockets") : demo()) {
      if (end.equals("Ctrl-C")) {
        person.type("\u0003");
      } else {
        person.signalAll(end);
      }
      assertThat(person.awaitEnd()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertThat(person.shown()).contains("Safe signal: confirmed");
      assertStopped();
      person.awaitAlone();
    }
  }

  /** No signal to it is needed, and none is heeded: it ends with the demo. */
  @Test
  void noSimulatorOutlivesItsDemo() throws Exception {
    try (TerminalSession person = demo("--over-sockets")) {
      person.signal("KILL");
      assertThat(person.awaitEnd()).isEqualTo(-9);
      person.awaitAlone();
    }
  }

  /** Nothing waits for the terminal, and what is shown at a pace is stopped all the same. */
  @ParameterizedTest
  @ValueSource(strings = {"TERM", "INT", "HUP"})
  void aSignalStopsADemoWhoseOutputWasStopped(String signal) throws Exception {
    try (RecordTail tail = new RecordTail(records());
        TerminalSession person = demo()) {
      person.type(XOFF);
      tail.await("stroke opening");
      person.signal(signal);
      assertThat(person.awaitEnd()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertStopped();
    }
  }

  private TerminalSession demo(String... more) throws IOException {
    List<Object> demo =
        new ArrayList<>(List.of("demo", "--time-scale", "10", "--records", records()));
    demo.addAll(List.of(more));
    TerminalSession person = TerminalSession.at(80, demo.toArray()).begin();
    // The name of the test in the plan before is not written so.
    person.awaitShown("Exercise");
    return person;
  }

  @Test
  void theLiveLineFitsTheWindowThoughItsWidthChanges() throws Exception {
    try (RecordTail tail = new RecordTail(records());
        TerminalSession person = TerminalSession.at(100, run(BRIEF)).begin()) {
      tail.await(MIDDLE);
      person.wide(50);
      // The line is looked at, not the verdict of a unit that a busy machine may have held up.
      assertThat(person.awaitEnd()).isIn(ExitCode.PASSED, ExitCode.NOT_PASSED);
      List<String> live =
          Stream.of(person.shown().split("\r\u001b\\[K", -1))
              .skip(1)
              .map(line -> line.replaceFirst("(?s)\r?\n.*", ""))
              .filter(line -> line.contains("setpoint") && line.contains("%"))
              .toList();
      assertThat(live).anyMatch(line -> line.length() > 80).allMatch(line -> line.length() < 100);
      assertThat(live.get(live.size() - 1)).hasSizeLessThan(50);
    }
  }

  /** Nobody reads the master any more: a connection that stands. */
  @Test
  void theReportIsWrittenAndTheProgramCanBeEndedWhileTheTerminalStands() throws Exception {
    try (RecordTail tail = new RecordTail(records());
        TerminalSession person = TerminalSession.at(80, run(BRIEF)).begin()) {
      tail.await(MIDDLE);
      person.stand();
      tail.await("\"kind\":\"closed\"");
      tail.awaitFile(".html");
      person.signal("TERM");
      person.awaitEnd();
      assertThat(record().closed().orElseThrow().how()).isEqualTo("complete");
    }
  }

  /** Standard output and error are one pipe that is full from the beginning and never read. */
  @ParameterizedTest
  @ValueSource(strings = {"TERM", "INT"})
  void aPipeThatNobodyReadsHoldsUpNothing(String signal) throws Exception {
    DebianProgram.require("python3");
    List<String> command = new ArrayList<>(List.of("python3", "-c", FULL_PIPE));
    command.addAll(TerminalSession.program(run(LONG)));
    try (RecordTail tail = new RecordTail(records())) {
      Process program = new ProcessBuilder(command).start();
      try {
        tail.await(LATER);
        new ProcessBuilder("kill", "-" + signal, Long.toString(program.pid())).start().waitFor();
        assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(program.exitValue()).isEqualTo(ExitCode.NOT_COMPLETED);
        assertStoppedSafely();
      } finally {
        program.destroyForcibly();
      }
    }
  }

  private static final String FULL_PIPE =
      """
      import os, signal, sys
      for each in (signal.SIGHUP, signal.SIGINT, signal.SIGTERM):
          signal.signal(each, signal.SIG_DFL)
      reader, writer = os.pipe()
      os.set_blocking(writer, False)
      try:
          while True:
              os.write(writer, b"x" * 512)
      except BlockingIOError:
          pass
      os.set_blocking(writer, True)
      os.dup2(writer, 1)
      os.dup2(writer, 2)
      os.set_inheritable(reader, True)
      os.execvp(sys.argv[1], sys.argv[1:])
      """;

  /** Whoever read it has gone: nothing can be shown, and the unit is tested all the same. */
  @Test
  void aPipeThatWasClosedChangesNothingOfTheVerdict() throws Exception {
    List<String> command = new ArrayList<>(List.of("sh", "-c", "\"$@\" | head -1", "sh"));
    command.addAll(TerminalSession.program(run(BRIEF)));
    Process shell = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(shell.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(said).contains("Not all of the output was written: standard output: ");
    assertThat(record().closed().orElseThrow().how()).isEqualTo("complete");
    assertThat(judgement()).contains("\"verdict\"");
  }

  private String judgement() throws IOException {
    try (Stream<Path> files = Files.list(records())) {
      return Files.readString(
          files.filter(f -> f.toString().endsWith(".json")).findFirst().orElseThrow());
    }
  }

  private void assertStoppedSafely() throws Exception {
    assertThat(bench.truth().loopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(0.1));
    assertStopped();
  }

  private void assertStopped() throws Exception {
    RunRecord record = record();
    assertThat(record.flaws()).isEmpty();
    assertThat(record.closed().orElseThrow().how()).isEqualTo("stopped");
    List<Event.MadeSafe> safe = record.events(Event.MadeSafe.class).toList();
    assertThat(safe.get(safe.size() - 1).confirmed()).isTrue();
  }

  private RunRecord record() throws Exception {
    return RecordReader.read(ShortRun.recordIn(records()));
  }

  private Path records() {
    return folder.resolve("records");
  }
}
