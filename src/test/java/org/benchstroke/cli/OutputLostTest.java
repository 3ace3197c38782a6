package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.stream.Stream;
import org.benchstroke.DebianProgram;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.app.ExitCode;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Standard output that takes nothing, for the disk is full: Linux has a file that is always so. */
@Timeout(60)
class OutputLostTest {
  private static final Path FULL = Path.of("/dev/full");
  private static final String LOST = "Not all of the output was written: standard output: ";

  @TempDir Path folder;

  @BeforeEach
  void linux() {
    DebianProgram.requireFile("/dev/full", FULL);
  }

  private record Done(int code, String err) {}

  private static Done full(Object... arguments) throws IOException {
    return printed(new FileOutputStream(FULL.toFile()), arguments);
  }

  private static Done printed(OutputStream target, Object... arguments) {
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    String[] args = Arrays.stream(arguments).map(String::valueOf).toArray(String[]::new);
    int code =
        Main.execute(
            Command.NO_INPUT,
            Command.KEYS,
            Surroundings.NONE,
            new Outlet(target, "out"),
            new Outlet(err, "err"),
            args);
    return new Done(code, err.toString(StandardCharsets.UTF_8));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "--help",
        "--version",
        "run --help",
        "check simulators/healthy-b.toml",
        "check --json simulators/healthy-b.toml",
        "ports",
        "ports --json",
        "generate-completion",
        "simulate --help"
      })
  void whatOnlyPrintsHasNotDoneItsJob(String line) throws IOException {
    Object[] arguments = line.split(" ");
    assertThat(printed(new ByteArrayOutputStream(), arguments).code()).isZero();
    Done lost = full(arguments);
    assertThat(lost.code()).isEqualTo(ExitCode.NOT_COMPLETED);
    assertThat(lost.err()).startsWith(LOST).hasLineCount(1);
  }

  @Test
  void aJudgementThatNobodySawPassesNothing() throws Exception {
    Path record = VirtualBench.with("healthy-b").runInto(folder.resolve("run.jsonl"));
    assertThat(printed(new ByteArrayOutputStream(), "judge", record).code()).isZero();
    for (Object[] judge : new Object[][] {{"judge", record}, {"judge", "--json", record}}) {
      Done lost = full(judge);
      assertThat(lost.code()).isEqualTo(ExitCode.NOT_COMPLETED);
      assertThat(lost.err()).startsWith(LOST);
    }
  }

  @Test
  void aReportThatWasWrittenIsThereAllTheSame() throws Exception {
    Path record = VirtualBench.with("healthy-b").runInto(folder.resolve("run.jsonl"));
    Done lost = full("report", record);
    assertThat(lost.code()).isZero();
    assertThat(lost.err()).startsWith(LOST);
    assertThat(folder.resolve("run.html")).isNotEmptyFile();
  }

  @Test
  void aWrongRequestStaysOne() throws IOException {
    Done wrong = full("judge", folder.resolve("nothing.jsonl"));
    assertThat(wrong.code()).isEqualTo(ExitCode.WRONG_REQUEST);
    assertThat(wrong.err()).doesNotContain(LOST);
  }

  /** A stream is kept and passed on as a whole, however late it is taken. */
  @Test
  void whatIsTakenLateIsWhole() throws Exception {
    Done late =
        printed(
            Files.newOutputStream(folder.resolve("late")),
            "check",
            "--json",
            "simulators/healthy-b.toml");
    assertThat(late.code()).isZero();
    assertThat(folder.resolve("late")).hasContent("[]");
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).hasSize(1);
    }
  }
}
