package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.UnitTypeReader;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.procedure.ProcedureReader;
import org.benchstroke.simulator.SimulationReader;

/** The kinds of files that a person writes, by the value of their key {@code kind}. Stateless. */
final class FileKinds {
  private static final Map<String, Reader> READERS = readers();

  private FileKinds() {}

  private interface Reader {
    void read(Path file) throws FileMistakes;
  }

  /**
   * Reads a file of any kind.
   *
   * @return its kind
   * @throws FileMistakes with every mistake in it
   */
  static String read(Path file) throws FileMistakes {
    TomlDocument document = TomlDocument.read(file);
    Map<String, String> words = new LinkedHashMap<>();
    READERS.keySet().forEach(kind -> words.put(kind, kind));
    String kind = document.root().choice("kind", words);
    document.finish();
    READERS.get(kind).read(file);
    return kind;
  }

  private static Map<String, Reader> readers() {
    Map<String, Reader> readers = new LinkedHashMap<>();
    readers.put(BenchFileReader.KIND, BenchFileReader::read);
    readers.put(UnitTypeReader.KIND, UnitTypeReader::read);
    readers.put(ProcedureReader.KIND, ProcedureReader::read);
    readers.put(SimulationReader.KIND, SimulationReader::read);
    return readers;
  }
}
