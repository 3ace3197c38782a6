package org.benchstroke.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.RecordReader;
import org.benchstroke.tests.RecordedRun;

/** A record: it is no record, or it is judged; what nobody sealed never passes by being damaged. */
class JournalFuzz {
  private static final Path FILE = made();

  private static Path made() {
    try {
      return Files.createTempDirectory("journal-fuzz").resolve("record.jsonl");
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @FuzzTest
  void read(byte[] bytes) throws Exception {
    Files.write(FILE, bytes);
    try {
      JudgedRun run = RecordedRun.judge(RecordReader.read(FILE));
      if (run.passed() && run.record().closed().isEmpty()) {
        throw new AssertionError("a run without an end passed");
      }
    } catch (RecordReader.NotARecord | FileMistakes told) {
      if (told.getMessage() == null || told.getMessage().isBlank()) {
        throw new AssertionError("refused without words", told);
      }
    }
  }
}
