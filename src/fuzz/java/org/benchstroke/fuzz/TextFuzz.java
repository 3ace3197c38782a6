package org.benchstroke.fuzz;

import java.nio.file.Path;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.toml.FileMistakes;

/** A file's bytes, read as a person's file is. Stateless. */
final class TextFuzz {
  /** Where simulations look for the unit type that they name. */
  static final Path PLACE = Path.of("simulators", "fuzz.toml");

  private TextFuzz() {}

  /** What reads a text, and may find mistakes in it. */
  interface Reader {
    void read(String text) throws FileMistakes;
  }

  static void of(byte[] bytes, Reader reader) {
    try {
      reader.read(GivenFile.text(bytes));
    } catch (Unreadable | FileMistakes told) {
      if (told.getMessage() == null || told.getMessage().isBlank()) {
        throw new AssertionError("a mistake without words", told);
      }
    }
  }
}
