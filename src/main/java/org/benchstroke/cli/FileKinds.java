package org.benchstroke.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.UnitTypeReader;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.procedure.ProcedureReader;

/** The kinds of files that a person writes, by the value of their key {@code kind}. Stateless. */
final class FileKinds {
  private static final Map<String, Reader> READERS = readers();

  private FileKinds() {}

  private interface Reader {
    void read(TomlDocument document) throws FileMistakes;
  }

  /**
   * Reads a document of any kind.
   *
   * @return its kind
   * @throws FileMistakes with every mistake in it
   */
  static String read(TomlDocument document) throws FileMistakes {
    Map<String, String> words = new LinkedHashMap<>();
    READERS.keySet().forEach(kind -> words.put(kind, kind));
    String kind = document.root().choice("kind", words);
    document.finish();
    READERS.get(kind).read(document);
    return kind;
  }

  private static Map<String, Reader> readers() {
    Map<String, Reader> readers = new LinkedHashMap<>();
    readers.put(BenchFileReader.KIND, BenchFileReader::read);
    readers.put(UnitTypeReader.KIND, UnitTypeReader::read);
    readers.put(ProcedureReader.KIND, ProcedureReader::read);
    return readers;
  }
}
