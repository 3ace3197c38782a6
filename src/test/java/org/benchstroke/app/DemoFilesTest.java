package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoFilesTest {
  @TempDir Path folder;

  /** Wherever they are copied to, an editor finds the schemas that their first lines name. */
  @Test
  void copiesLeadToTheCopiedSchemas() throws Exception {
    assertThat(DemoFiles.unpack(folder)).isEmpty();
    List<Path> files;
    try (Stream<Path> walk = Files.walk(folder)) {
      files = walk.filter(file -> file.toString().endsWith(".toml")).toList();
    }
    assertThat(files).hasSizeGreaterThan(50);
    for (Path file : files) {
      String first = Files.readAllLines(file).get(0);
      assertThat(first).startsWith("#:schema ");
      assertThat(file.resolveSibling(first.substring("#:schema ".length()))).isRegularFile();
    }
    assertThat(DemoFiles.unpack(folder)).as("nobody edited one").isEmpty();
    Files.writeString(files.get(0), "mine");
    assertThat(DemoFiles.unpack(folder)).containsExactly(files.get(0));
  }
}
