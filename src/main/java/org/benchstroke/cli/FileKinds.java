package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.app.UserFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentFile;
import org.benchstroke.commission.TranscriptCheck;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitTypeReader;
import org.benchstroke.web.access.OperatorsFile;

/** The kinds of files that a person writes, by the value of their key {@code kind}. Stateless. */
final class FileKinds {
  private static final Map<String, Reader> READERS = readers();

  private FileKinds() {}

  private interface Reader {
    /** Gives what was understood and may be worth a look, a line each. */
    List<String> read(Path file) throws FileMistakes;
  }

  /**
   * A file that was read.
   *
   * @param kind its kind
   * @param understood what it says, where that may be worth a look
   */
  record Found(String kind, List<String> understood) {}

  /**
   * Reads a file of any kind.
   *
   * @throws FileMistakes with every mistake in it
   */
  static Found read(Path file) throws FileMistakes {
    TomlDocument document = TomlDocument.read(file);
    Map<String, String> words = new LinkedHashMap<>();
    READERS.keySet().forEach(kind -> words.put(kind, kind));
    String kind = document.root().choice("kind", words);
    document.finish();
    return new Found(kind, READERS.get(kind).read(file));
  }

  private static Map<String, Reader> readers() {
    Map<String, Reader> readers = new LinkedHashMap<>();
    readers.put(BenchFileReader.KIND, file -> BenchFileReader.read(file).understood());
    readers.put(UnitTypeReader.KIND, file -> nothingMore(UnitTypeReader.read(file)));
    readers.put(ProcedureReader.KIND, file -> nothingMore(ProcedureReader.read(file)));
    readers.put(SimulationReader.KIND, file -> nothingMore(SimulationReader.read(file)));
    readers.put(ShopFileReader.KIND, file -> nothingMore(ShopFileReader.read(file)));
    readers.put(InstrumentFile.KIND, FileKinds::instrument);
    readers.put(UserFile.KIND, file -> nothingMore(UserFile.read(file)));
    readers.put(OperatorsFile.KIND, file -> nothingMore(OperatorsFile.read(file)));
    return readers;
  }

  /** Its transcript is replayed: it must be what such a driver says and hears. */
  private static List<String> instrument(Path file) throws FileMistakes {
    InstrumentFile described = InstrumentFile.read(file);
    List<String> understood = new ArrayList<>(described.instrument().talk().understood());
    if (described.transcript().isPresent()) {
      understood.addAll(TranscriptCheck.of(described, described.transcript().get()));
    }
    return understood;
  }

  /** What such a file says is said by its own words. */
  private static List<String> nothingMore(Record read) {
    Objects.requireNonNull(read);
    return List.of();
  }
}
