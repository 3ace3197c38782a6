package org.benchstroke.app.stations;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitTypeReader;

/**
 * A file that can be chosen for a job: one that lies beside the usual one.
 *
 * @param file where it is
 * @param name as it names itself
 * @param usual whether it is taken unless another is chosen
 */
public record Choice(Path file, String name, boolean usual) {
  private static final int MOST = 200;

  private interface Named {
    String of(TomlDocument file) throws FileMistakes;
  }

  /** Unit types beside the usual one; none where there is no usual one. */
  public static List<Choice> ofUnitTypes(Place place) {
    return beside(place.unitType(), file -> UnitTypeReader.read(file).name());
  }

  /** Procedures beside the usual one. */
  public static List<Choice> ofProcedures(Place place) {
    return beside(place.procedure(), file -> ProcedureReader.read(file).name());
  }

  /** What has mistakes is left out: {@code check} lists them. */
  private static List<Choice> beside(Optional<Path> usual, Named named) {
    if (usual.isEmpty()) {
      return List.of();
    }
    List<Choice> choices = new ArrayList<>();
    Path folder = Optional.ofNullable(usual.get().toAbsolutePath().getParent()).orElseThrow();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.toml")) {
      for (Path file : files) {
        if (choices.size() < MOST) {
          choice(file, usual.get(), named).ifPresent(choices::add);
        }
      }
    } catch (IOException e) {
      return List.of();
    }
    choices.sort(Comparator.comparing(Choice::usual).reversed().thenComparing(Choice::name));
    return choices;
  }

  private static Optional<Choice> choice(Path file, Path usual, Named named) {
    try {
      String name = named.of(TomlDocument.read(file));
      return Optional.of(new Choice(file, name, Files.isSameFile(file, usual)));
    } catch (FileMistakes | IOException e) {
      return Optional.empty();
    }
  }
}
