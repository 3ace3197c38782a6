package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.io.transport.Endpoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RunCommandTest {
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");

  @TempDir Path folder;

  @Test
  void anUnattendedRunOnARealBenchIsRefused() {
    Command run =
        Command.run(
            Command.runArguments(Path.of("demo-data/benches/wall-bench.toml"), UNIT, folder));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err().lines()).hasSize(1);
    assertThat(run.err()).contains("--unattended is for simulated benches only");
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  void theMistakesOfAllFilesAreToldAtOnce() {
    Path checks = Path.of("src/test/resources/check");
    Command run =
        Command.run(
            Command.runArguments(
                checks.resolve("syntax.toml"), checks.resolve("unit-type-held.toml"), folder));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains("syntax.toml:3: ").contains("HOLD: ");
    assertThat(folder).isEmptyDirectory();
  }

  /** Ports that nobody listens on: one line says which, and nothing passes. */
  @Test
  void aBenchThatIsNotThereIsOneClearLine() throws IOException {
    Command run = Command.run(Command.runArguments(benchNobodyServes(), UNIT, folder));
    assertThat(run.code()).isEqualTo(3);
    assertThat(run.out() + run.err())
        .contains("tcp://127.0.0.1:")
        .contains("cannot connect")
        .doesNotContain("PASSED");
  }

  @Test
  void recordsThatCanNotBeWrittenAreOneClearLine() throws IOException {
    Path bench = benchNobodyServes();
    Path inTheWay = Files.createFile(folder.resolve("records"));
    Command run = Command.run(Command.runArguments(bench, UNIT, inTheWay));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err().lines()).hasSize(1);
    assertThat(run.err()).contains("can't be written");
  }

  /** A damaged file among the records costs a word and no run. */
  @Test
  void aRunBeginsBesideADamagedFile() throws Exception {
    Files.writeString(folder.resolve("20260601-090000-short.jsonl"), "{\"n\":1,\"check\":\"}\n");
    Command run = Command.run(Command.runArguments(benchNobodyServes(), UNIT, folder));
    // Nobody serves that bench; the run began all the same.
    assertThat(run.code()).isEqualTo(3);
    assertThat(run.err()).contains("skipped").contains("short.jsonl");
  }

  private Path benchNobodyServes() throws IOException {
    String text = VirtualBench.with("healthy-b").unit().benchToml(Map.of(), 20.0);
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      Endpoint nobody = new Endpoint.Tcp("127.0.0.1", free.getLocalPort());
      return Files.writeString(
          folder.resolve("bench.toml"),
          text.replaceAll("address = \"tcp://[^\"]*\"", "address = \"" + nobody.text() + "\""));
    }
  }
}
