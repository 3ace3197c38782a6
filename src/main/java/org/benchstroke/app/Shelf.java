package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * The bench files, unit types and procedures of a shop: all that lie in some folders. They are read
 * each time they are asked for, so that what is edited shows at once. Immutable, any thread.
 *
 * @param folders where they lie
 */
public record Shelf(Set<Path> folders) {
  public Shelf {
    folders = Set.copyOf(folders);
  }

  /**
   * Beside the files that are stated for all runs, in the folders of short names, and in further
   * ones.
   *
   * @throws WrongRequest if a variable of the environment names no file
   */
  public static Shelf of(Defaults stated, Collection<Path> further) throws WrongRequest {
    Set<Path> folders = new LinkedHashSet<>(further);
    for (Setting setting : List.of(Setting.BENCH, Setting.UNIT_TYPE, Setting.PROCEDURE)) {
      stated
          .file(setting, Optional.empty())
          .map(file -> file.toAbsolutePath().normalize().getParent())
          .ifPresent(folders::add);
    }
    folders.addAll(stated.folders());
    return new Shelf(folders);
  }

  /**
   * A file.
   *
   * @param file where it is
   * @param value what it says; empty if there is a mistake in it
   * @param flaw the mistakes, a line each; empty if there is none
   */
  public record Kept<T>(Path file, Optional<T> value, String flaw) {
    /** Its name, without folders. */
    public String name() {
      return file.getFileName().toString();
    }
  }

  private interface Reader<T> {
    T read(Path file) throws FileMistakes;
  }

  /** The bench files, by their names. */
  public List<Kept<BenchFile>> benches() throws IOException {
    return all(BenchFileReader.KIND, BenchFileReader::read);
  }

  /** The unit types, by the names of their files. */
  public List<Kept<UnitType>> unitTypes() throws IOException {
    return all(UnitTypeReader.KIND, UnitTypeReader::read);
  }

  /** The procedures, by the names of their files. */
  public List<Kept<Procedure>> procedures() throws IOException {
    return all(ProcedureReader.KIND, ProcedureReader::read);
  }

  private <T> List<Kept<T>> all(String kind, Reader<T> reader) throws IOException {
    List<Kept<T>> all = new ArrayList<>();
    for (Path file : files()) {
      if (says(file, kind)) {
        all.add(kept(file, reader));
      }
    }
    return all;
  }

  /** What can't be read is of no kind, and not of the shelf. */
  private static boolean says(Path file, String kind) {
    try {
      return TomlDocument.read(file).root().optionalText("kind").equals(Optional.of(kind));
    } catch (FileMistakes e) {
      return false;
    }
  }

  private static <T> Kept<T> kept(Path file, Reader<T> reader) {
    try {
      return new Kept<>(file, Optional.of(reader.read(file)), "");
    } catch (FileMistakes e) {
      return new Kept<>(file, Optional.empty(), e.getMessage());
    }
  }

  private Set<Path> files() throws IOException {
    Set<Path> files = new TreeSet<>();
    for (Path folder : folders) {
      if (Files.isDirectory(folder)) {
        try (DirectoryStream<Path> found = Files.newDirectoryStream(folder, "*.toml")) {
          found.forEach(files::add);
        }
      }
    }
    return files;
  }
}
