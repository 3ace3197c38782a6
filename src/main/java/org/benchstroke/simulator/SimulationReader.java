package org.benchstroke.simulator;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.UnitType;
import org.benchstroke.bench.UnitTypeReader;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.Mistake;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.model.ModelParameters;

/** Reads simulation files. Stateless. */
public final class SimulationReader {
  /** The value of a simulation file's key {@code kind}. */
  public static final String KIND = "simulation";

  private SimulationReader() {}

  /**
   * Reads a file and the unit type file that it names, relative to itself.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static Simulation read(Path path) throws FileMistakes {
    TomlDocument document = TomlDocument.read(path);
    document.expect(KIND);
    TomlSection root = document.root();
    String name = root.text("name");
    String shows = root.text("shows");
    int seed = root.integer("seed", 0, Integer.MAX_VALUE);
    boolean angle = root.choice("angle_reference", Map.of("fitted", true, "absent", false));
    Path typeFile = path.resolveSibling(root.text("unit_type")).normalize();
    Optional<UnitType> type = unitType(root, typeFile);
    ModelParameters sound = type.flatMap(t -> sound(root, t)).orElseGet(ModelParameters::baseline);
    ModelParameters parameters = UnitSections.read(root, sound);
    root.noOtherKeys();
    document.finish();
    return new Simulation(name, shows, typeFile, type.orElseThrow(), seed, angle, parameters);
  }

  private static Optional<UnitType> unitType(TomlSection root, Path file) {
    if (root.text("unit_type").isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(UnitTypeReader.read(file));
    } catch (FileMistakes mistakes) {
      for (Mistake mistake : mistakes.mistakes()) {
        root.mistake("unit_type", mistake.text());
      }
      return Optional.empty();
    }
  }

  private static Optional<ModelParameters> sound(TomlSection root, UnitType type) {
    try {
      return Optional.of(SimulatedUnits.sound(type));
    } catch (IllegalArgumentException e) {
      root.mistake("unit_type", "can't be simulated: " + e.getMessage());
      return Optional.empty();
    }
  }
}
