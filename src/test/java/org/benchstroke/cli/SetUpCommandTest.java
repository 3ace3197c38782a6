package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SetUpCommandTest {
  private static final Path UNIT = Path.of("simulators/healthy-b.toml");

  @TempDir Path folder;

  private Command setUp(Object... more) {
    return Command.run(
        Stream.concat(
                Stream.of(
                    "setup",
                    "--serial",
                    "S-1",
                    "--operator",
                    "Ann",
                    "--order",
                    "4711",
                    "--records",
                    folder),
                Stream.of(more))
            .toArray());
  }

  private List<Path> files() throws Exception {
    try (Stream<Path> all = Files.list(folder)) {
      return all.sorted().toList();
    }
  }

  @Test
  void simulatedHandsDoAllOfItAndItsRecordIsSealed() throws Exception {
    Command done = setUp("--simulation", UNIT, "--unattended");
    assertThat(done.code()).isZero();
    assertThat(done.out())
        .contains("Step 7 of 19  end switch, closed")
        .contains("In hand: hex keys, 3 and 5 mm")
        .contains("Maker's page: ")
        .doesNotContain("NOT there")
        .contains("Set up: all steps are done")
        .contains("Safe signal: confirmed");
    Path record = files().get(0);
    assertThat(record.toString()).endsWith("-S-1.set-up");
    Command verified = Command.run("verify", record);
    assertThat(verified.code()).isZero();
  }

  @Test
  void aUnitThatCameSetUpIsRecordedWithoutOpeningAnything() throws Exception {
    Command done =
        setUp(
            "--came-set-up",
            "--bench",
            Path.of("demo-data/benches/wall-bench.toml"),
            "--unit-type",
            Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    assertThat(done.code()).isZero();
    assertThat(done.out()).contains("came set up");
    assertThat(Files.readString(files().get(0))).contains("\"outcome\":\"came set up\"");
  }

  @Test
  void whatAPipeSaysAnswersNoCaution() {
    Command refused = setUp("--simulation", UNIT);
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.err()).contains("Nobody can answer the cautions");
  }

  @Test
  void handsThatAreNotThereAreRefused() {
    Command refused = setUp("--unattended", "--bench", "b.toml", "--unit-type", "u.toml");
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.err()).contains("a person's hands are needed");
  }
}
