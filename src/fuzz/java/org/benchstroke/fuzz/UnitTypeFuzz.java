package org.benchstroke.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.unit.UnitTypeReader;

/** A unit type file: it is read, or its mistakes are told. Nothing else comes of it. */
class UnitTypeFuzz {
  @FuzzTest
  void read(byte[] bytes) throws Exception {
    TextFuzz.of(bytes, text -> UnitTypeReader.read(TomlDocument.parse("unit.toml", text)));
  }
}
