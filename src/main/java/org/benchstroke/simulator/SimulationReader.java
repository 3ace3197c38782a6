package org.benchstroke.simulator;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/** Reads simulation files. Stateless. */
public final class SimulationReader {
  /** The value of a simulation file's key {@code kind}. */
  public static final String KIND = "simulation";

  private static final Map<String, Boolean> FITTED = fitted();
  private static final Map<String, String> VERDICTS = verdicts();
  private static final Pattern CAUSE = Pattern.compile("[a-z]+(_[a-z]+)*");

  private SimulationReader() {}

  /**
   * Reads a file and the unit type file that it names, relative to itself.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static Simulation read(Path path) throws FileMistakes {
    return read(path, TomlDocument.textOf(path));
  }

  /**
   * Reads the text of a file that need not exist.
   *
   * @param path where it would be: the unit type file is found from there
   * @throws FileMistakes with every mistake in it
   */
  public static Simulation read(Path path, String text) throws FileMistakes {
    TomlDocument document = TomlDocument.parse(path.toString(), text);
    document.expect(KIND);
    TomlSection root = document.root();
    String name = root.text("name");
    String shows = root.text("shows");
    int seed = root.integer("seed", 0, Integer.MAX_VALUE);
    boolean angle = root.choice("angle_reference", FITTED);
    OptionalDouble period = root.optionalNumber("sample_period_ms", 10, 5000, "ms");
    Optional<Path> typeFile = typeFile(root, path);
    Optional<UnitType> type = typeFile.flatMap(file -> unitType(root, file));
    ModelParameters sound = type.flatMap(t -> sound(root, t)).orElseGet(ModelParameters::baseline);
    ModelParameters parameters = UnitSections.read(root, sound);
    List<LinkFault> faults = LinkFaultReader.read(path.toString(), root);
    List<InstrumentError> errors = InstrumentError.read(root);
    Optional<Conclusion> expected =
        root.optionalSection("expected").map(SimulationReader::expected);
    root.noOtherKeys();
    document.finish();
    return new Simulation(
        name,
        shows,
        typeFile.orElseThrow(),
        type.orElseThrow(),
        seed,
        angle,
        period,
        parameters,
        faults,
        errors,
        expected);
  }

  private static Conclusion expected(TomlSection s) {
    String verdict = s.choice("verdict", VERDICTS);
    String shows = s.text("shows");
    String cause = s.text("cause");
    if (!cause.isEmpty() && !CAUSE.matcher(cause).matches()) {
      s.mistake("cause", "is written in lower case with underscores, such as zero_shift, or none");
    }
    s.noOtherKeys();
    return new Conclusion(verdict, shows, cause);
  }

  /** In the order in which messages name them: the words of a judgement. */
  private static Map<String, String> verdicts() {
    Map<String, String> words = new LinkedHashMap<>();
    for (String word :
        List.of("pass", "conditional pass", "conditional fail", "fail", "no result")) {
      words.put(word, word);
    }
    return words;
  }

  /** In the order in which messages name them. */
  private static Map<String, Boolean> fitted() {
    Map<String, Boolean> words = new LinkedHashMap<>();
    words.put("fitted", true);
    words.put("absent", false);
    return words;
  }

  private static Optional<Path> typeFile(TomlSection root, Path simulation) {
    String text = root.text("unit_type");
    try {
      return Optional.of(text)
          .filter(t -> !t.isEmpty())
          .map(t -> simulation.resolveSibling(t).normalize());
    } catch (InvalidPathException e) {
      root.mistake("unit_type", "is not the name of a file: " + e.getReason());
      return Optional.empty();
    }
  }

  private static Optional<UnitType> unitType(TomlSection root, Path file) {
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
