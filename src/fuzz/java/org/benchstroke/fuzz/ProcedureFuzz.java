package org.benchstroke.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.tests.ProcedureReader;

/** A procedure file: it is read, or its mistakes are told. Nothing else comes of it. */
class ProcedureFuzz {
  @FuzzTest
  void read(byte[] bytes) throws Exception {
    TextFuzz.of(bytes, text -> ProcedureReader.read(TomlDocument.parse("procedure.toml", text)));
  }
}
