package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code simulate --list}, and the pages of the simulated units. */
class SimulationListTest {
  private static final Path COLLECTION = Path.of("simulators");

  @TempDir Path folder;

  @Test
  void everyFileIsListedAndExplained() throws IOException {
    Command list = Command.run("simulate", "--list");
    assertThat(list.code()).isZero();
    String readme = Files.readString(COLLECTION.resolve("README.md"));
    List<Path> files;
    try (Stream<Path> found = Files.list(COLLECTION)) {
      files = found.filter(f -> f.toString().endsWith(".toml")).sorted().toList();
    }
    assertThat(list.out().lines()).hasSameSizeAs(files);
    for (Path file : files) {
      assertThat(list.out()).contains(file + " ");
      assertThat(readme).contains("**" + file.getFileName() + "**: ");
    }
    assertThat(list.out())
        .containsPattern("zero-shift.toml +zero_shift +The position")
        .containsPattern("healthy-b.toml +none +A sound")
        .containsPattern("pneumatic-sound.toml +– +[A-Z]");
    assertThat(list.out()).contains("A sound quarter-turn unit, 15 s; nothing to find.");
  }

  @Test
  void whatCannotBeListedIsOneLine() throws IOException {
    assertThat(Command.run("simulate", "--list", folder.resolve("none")).err())
        .contains("is not a folder of simulation files");
    assertThat(Command.run("simulate", "--list", folder).err()).contains("holds no simulation");
    assertThat(Command.run("simulate").err()).contains("simulate --list shows them");
    Files.writeString(folder.resolve("bad.toml"), "kind = \"simulation\"\n");
    Command bad = Command.run("simulate", "--list", folder);
    assertThat(bad.code()).isEqualTo(2);
    assertThat(bad.err()).contains("bad.toml:1: format: is missing");
  }
}
