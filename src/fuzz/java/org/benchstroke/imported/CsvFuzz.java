package org.benchstroke.imported;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.core.toml.FileMistakes;

/** What a logger or a person wrote: it is judged, or its mistakes are told. */
class CsvFuzz {
  private static final Path FOLDER = made();

  private static Path made() {
    try {
      return Files.createTempDirectory("csv-fuzz");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @FuzzTest
  void read(byte[] bytes) {
    // The first byte chooses whose bench it is, the rest is the file.
    boolean logged = bytes.length > 0 && (bytes[0] & 1) == 1;
    String text = new String(bytes, StandardCharsets.ISO_8859_1);
    Foreign by = new Foreign(FOLDER);
    try {
      (logged ? by.logged() : by).judge(text.isEmpty() ? "" : text.substring(1));
    } catch (FileMistakes told) {
      if (told.mistakes().isEmpty()) {
        throw new AssertionError("refused without a mistake", told);
      }
    }
  }
}
