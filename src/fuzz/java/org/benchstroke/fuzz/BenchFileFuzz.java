package org.benchstroke.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.TomlDocument;

/** A bench file: it is read, or its mistakes are told. Nothing else comes of it. */
class BenchFileFuzz {
  @FuzzTest
  void read(byte[] bytes) throws Exception {
    TextFuzz.of(bytes, text -> BenchFileReader.read(TomlDocument.parse("bench.toml", text)));
  }
}
