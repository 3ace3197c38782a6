package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.benchstroke.app.ExitCode;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Cautions at a real pseudo-terminal: only what is typed after one was shown answers it. */
@Timeout(300)
class TypedAheadTest {
  private static final double SCALE = 30;
  private static final String GO_ON = "Go on?   y = yes   n = no, stop";
  private static final String MOVE = "type  move  and Enter.   n = no, stop";
  private static final String BELL = "\u0007";
  private static final String CTRL_S = "\u0013";
  private static final String CTRL_Z = "\u001a";
  private static final String CTRL_C = "\u0003";
  private static final String ARROW_UP = "\u001b[A";

  /** None of them comes to its end. */
  private static final String LONG =
      """
      kind = "procedure"
      format = 1
      name = "Short"
      version = "1"
      [[test]]
      test = "travel error"
      points_pct = [0, 20, 40, 60, 100]
      cycles = 10
      """;

  @TempDir Path folder;

  private SimulatedBench bench;
  private SimulatorServer server;

  @BeforeEach
  void serve() throws Exception {
    bench = SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    server = SimulatorServer.start(bench, SystemClock.scaled(SCALE), Map.of());
    Files.writeString(folder.resolve("bench.toml"), ShortRun.patient(server.benchToml()));
    Files.createDirectory(folder.resolve("records"));
  }

  @AfterEach
  void close() {
    server.close();
  }

  private Object[] run() throws Exception {
    Object[] unattended =
        Command.runArguments(
            folder.resolve("bench.toml"),
            Files.writeString(
                folder.resolve("type.toml"),
                Files.readString(ShortRun.TYPE).replaceAll("(?s)\\[limits].*", "")
                    + "[limits]\ntravel_error_pct = 1.0\n"
                    + ShortRun.VERY_PATIENT),
            Files.writeString(folder.resolve("procedure.toml"), LONG),
            folder.resolve("records"));
    return Arrays.stream(unattended).filter(a -> !a.equals("--unattended")).toArray();
  }

  @Test
  void whatWasTypedBeforeTheProgramStartedAnswersNothing() throws Exception {
    double stood = bench.truth().feedbackPercent();
    try (TerminalSession person = TerminalSession.at(80, run())) {
      person.type("y\ny\nmove\n");
      person.begin();
      answer(person, 1, GO_ON, "yyy\nmove\n");
      person.awaitShown("Mate and wire");
      person.awaitShown(GO_ON, 2);
      refuse(person);
      assertThat(person.awaitEnd()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertThat(answers()).containsExactly("y, at the terminal", "refused");
      assertThat(bench.truth().feedbackPercent()).isCloseTo(stood, within(1.0));
      assertThat(bench.motorSupply()).isFalse();
      assertThat(person.left()).isEqualTo("lines");
    }
  }

  @Test
  void motionWantsItsOwnWordAndCtrlCStillStops() throws Exception {
    try (RecordTail tail = new RecordTail(folder.resolve("records"));
        TerminalSession person = TerminalSession.at(80, run()).begin()) {
      answer(person, 1, GO_ON, "y");
      answer(person, 2, GO_ON, "y");
      answer(person, 1, MOVE, "y\n");
      person.awaitShown("Type  move  or n:");
      assertThat(bench.motorSupply()).isFalse();
      answer(person, 1, "Type  move  or n:", ARROW_UP + "movv\u007fe\n");
      assertThat(person.awaitShown("Moving in 3").split(BELL, -1)).hasSizeGreaterThanOrEqualTo(5);
      tail.await("travel 20 up");
      person.type(CTRL_S + CTRL_Z + "\u001c");
      tail.await("travel 60 up");
      person.type(CTRL_C);
      assertThat(person.awaitEnd()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertThat(person.left()).isEqualTo("lines");
      assertThat(person.shown()).contains("Safe signal: confirmed, the source reads back 4.000 mA");
      assertThat(answers()).endsWith("move, at the terminal");
      assertThat(bench.truth().loopMilliamps()).isCloseTo(4.0, within(0.1));
    }
  }

  /** The question can't be seen yet, so nothing can have answered it. */
  @Test
  void whatIsTypedAtATerminalThatStandsAnswersNothing() throws Exception {
    try (TerminalSession person = TerminalSession.at(80, run()).begin()) {
      answer(person, 1, GO_ON, "y");
      answer(person, 2, GO_ON, "y");
      person.awaitShown("Preflight");
      person.stand();
      person.type("move\nmove\n");
      person.goOn();
      person.awaitShown(MOVE);
      refuse(person);
      assertThat(person.awaitEnd()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertThat(answers()).endsWith("refused").doesNotContain("move, at the terminal");
    }
  }

  @Test
  void aTerminalThatIsClosedStopsTheRunSafely() throws Exception {
    try (RecordTail tail = new RecordTail(folder.resolve("records"));
        TerminalSession person = TerminalSession.at(80, run()).begin()) {
      answer(person, 1, GO_ON, "y");
      answer(person, 2, GO_ON, "y");
      answer(person, 1, MOVE, "move\n");
      tail.await("travel 20 up");
      person.closeTerminal();
      person.awaitEnd();
      RunRecord record = record();
      assertThat(record.closed().orElseThrow().how()).isEqualTo("stopped");
      assertThat(bench.truth().loopMilliamps()).isCloseTo(4.0, within(0.1));
    }
  }

  /** In one process, on a virtual clock, a person is asked as on any bench. */
  @Test
  void aSimulationAsksAsABenchDoes() throws Exception {
    Object[] run = {
      "run",
      "--simulation",
      "simulators/healthy-b.toml",
      "--procedure",
      Files.writeString(folder.resolve("procedure.toml"), LONG),
      "--serial",
      "T-1",
      "--operator",
      "Ann",
      "--order",
      "none",
      "--records",
      folder.resolve("records")
    };
    try (TerminalSession person = TerminalSession.at(80, run)) {
      person.type("y\ny\nmove\n");
      person.begin();
      answer(person, 1, GO_ON, "yyy\nmove\n");
      answer(person, 2, GO_ON, "y");
      answer(person, 1, MOVE, "move\n");
      String shown = person.awaitShown("Record:");
      assertThat(shown.substring(shown.indexOf("Plan, about"), shown.indexOf(GO_ON)))
          .contains("travel error", "steps", "CAUTION");
      // All that led to a question stands above it.
      assertThat(shown.indexOf("noise at rest")).isLessThan(shown.indexOf(MOVE));
      person.awaitEnd();
      assertThat(answers())
          .containsExactly("y, at the terminal", "y, at the terminal", "move, at the terminal");
      assertThat(record().closed().orElseThrow().how()).isEqualTo("complete");
    }
  }

  @Test
  void ordersOfADriveAreTypedAndSeen() throws Exception {
    Object[] drive = {
      "drive", "--bench", folder.resolve("bench.toml"), "--unit-type", ShortRun.TYPE
    };
    try (TerminalSession person = TerminalSession.at(80, drive)) {
      person.type("y\ny\nmove\n20\n");
      person.begin();
      answer(person, 1, GO_ON, "y");
      answer(person, 2, GO_ON, "y");
      answer(person, 1, MOVE, "move\n");
      person.awaitShown("mA, %, + - safe q >");
      assertThat(person.shown()).doesNotContain("set 20.000 mA");
      person.type("12\n");
      person.awaitShown("set 12.000 mA");
      person.type("q\n");
      assertThat(person.awaitEnd()).isZero();
      assertThat(person.left()).isEqualTo("lines");
      assertThat(person.shown()).contains("Safe signal: confirmed, the source reads back 4.000 mA");
    }
  }

  /** Answers a question once it was shown for the nth time, until the answer counts. */
  private static void answer(TerminalSession person, int nth, String question, String keys)
      throws Exception {
    person.awaitShown(question, nth);
    int before = person.shown().length();
    while (isEcho(person.shown().substring(before), keys)) {
      int shown = person.shown().length();
      person.type(keys);
      person.awaitMore(shown + keys.length());
    }
  }

  /** What a terminal shows of keys that came too early to count: those keys, and no more. */
  private static boolean isEcho(String shown, String keys) {
    return shown.chars().allMatch(c -> Character.isWhitespace(c) || keys.indexOf(c) >= 0);
  }

  private static void refuse(TerminalSession person) throws Exception {
    int before = person.shown().length();
    while (person.shown().length() == before) {
      person.type("n");
      person.awaitMore(before);
    }
  }

  private List<String> answers() throws Exception {
    return record().events(Event.Cautioned.class).map(Event.Cautioned::answer).toList();
  }

  private RunRecord record() throws Exception {
    return RecordReader.read(ShortRun.recordIn(folder.resolve("records")));
  }
}
