package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.benchstroke.DebianProgram;
import org.benchstroke.cli.CommandLines;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The notebook of the documents, by Debian's Python and numpy, over records that runs have left.
 */
class NotebookTest {
  private static final Path PAGE = Path.of("docs/how-to/read-records-in-a-notebook.md");

  @TempDir static Path folder;

  @BeforeAll
  static void run() {
    for (String unit : new String[] {"healthy-b", "zero-shift"}) {
      CommandLines.Done done =
          CommandLines.execute(
              "run",
              "--simulation",
              "simulators/" + unit + ".toml",
              "--procedure",
              "demo-data/procedures/short-acceptance.toml",
              "--serial",
              unit,
              "--operator",
              "me",
              "--order",
              "none",
              "--unattended",
              "--archive",
              "none",
              "--records",
              folder.resolve("records").toString());
      assertThat(done.code()).as(done.text()).isLessThan(2);
    }
  }

  @Test
  void itsCellsRunAndFindWhatTheUnitsAre() throws Exception {
    DebianProgram.require("python3");
    DebianProgram.requireFile("python3-numpy", Path.of("/usr/lib/python3/dist-packages/numpy"));
    String notebook =
        Pages.blocks().stream()
            .filter(block -> block.page().equals(PAGE) && block.info().equals("python"))
            .map(Pages.Block::text)
            .collect(Collectors.joining("\n"));
    Path script = Files.writeString(folder.resolve("notebook.py"), notebook);
    // Debian's own, whatever else there is.
    Process python =
        new ProcessBuilder("/usr/bin/python3", script.toString())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .start();
    String told = new String(python.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(python.waitFor(120, TimeUnit.SECONDS)).isTrue();
    assertThat(python.exitValue()).as(told).isZero();
    assertThat(told)
        .contains("healthy-b ", "zero-shift ", "SIMULATED")
        .containsPattern("2 of 2 mean \\d\\.\\d+ largest U 0\\.\\d+")
        .containsPattern("\\d{3,} samples, \\d+ % of them at rest");
    assertThat(told.lines().filter(line -> line.startsWith("zero-shift")))
        .hasSize(1)
        .allMatch(line -> line.contains(" fail"));
    double mean = Double.parseDouble(told.replaceAll("(?s).*mean ([\\d.]+) .*", "$1"));
    assertThat(mean).as("half of the error of the one that is shifted").isBetween(0.3, 1.2);
  }
}
