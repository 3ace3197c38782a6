package org.benchstroke.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Role;

/** Reads bench files. Stateless. */
public final class BenchFileReader {
  /** The value of a bench file's key {@code kind}. */
  public static final String KIND = "bench";

  private BenchFileReader() {}

  /**
   * Reads a file, and the descriptions of instruments that it uses.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static BenchFile read(Path path) throws FileMistakes {
    return read(BenchText.of(path).document());
  }

  /**
   * Reads a document that has been opened.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static BenchFile read(TomlDocument document) throws FileMistakes {
    document.expect(KIND);
    TomlSection root = document.root();
    String name = root.text("name");
    String place = root.text("place");
    double period = root.number("sample_period_ms", 10, 5000, "ms") / 1000.0;
    Optional<TemperatureRange> ambient = TemperatureReader.ambient(root);
    Optional<BenchFile.Simulation> simulation =
        root.optionalSection("simulation").map(BenchFileReader::simulation);
    Optional<BenchFile.Laboratory> laboratory =
        root.optionalSection("laboratory").map(BenchFileReader::laboratory);
    BenchLines lines = BenchLines.read(root);
    List<InstrumentSpec> instruments = new ArrayList<>();
    Map<String, String> names = new HashMap<>();
    Map<Role, String> players = new HashMap<>();
    for (TomlSection section : root.sections("instrument")) {
      InstrumentSpec spec = InstrumentReader.read(section, lines);
      noteDoubles(section, spec, names, players);
      noteSharedAddress(section, spec, instruments);
      TemperatureReader.check(section, spec, ambient);
      instruments.add(spec);
    }
    lines.noteUnused();
    for (Role needed : List.of(Role.SIGNAL_SOURCE, Role.POSITION_TRANSMITTER)) {
      if (!players.containsKey(needed)) {
        root.mistake(
            "instrument", "no instrument plays the role \"" + needed.key() + "\"; add one");
      }
    }
    root.noOtherKeys();
    document.finish();
    return new BenchFile(
        name, place, period, ambient, simulation, instruments, lines.endpoints(), laboratory);
  }

  private static BenchFile.Laboratory laboratory(TomlSection section) {
    String name = section.text("name");
    String address = section.text("address");
    section.noOtherKeys();
    return new BenchFile.Laboratory(name, address);
  }

  private static BenchFile.Simulation simulation(TomlSection section) {
    String shows = section.text("shows");
    double scale = section.number("time_scale", 0.1, 1000, "bench seconds per second of real time");
    Optional<String> clock = section.optionalText("clock");
    section.noOtherKeys();
    return new BenchFile.Simulation(shows, scale, clock);
  }

  /** Two descriptions of one unit would each believe to be alone with it. */
  private static void noteSharedAddress(
      TomlSection section, InstrumentSpec spec, List<InstrumentSpec> before) {
    for (InstrumentSpec other : before) {
      OptionalInt number = spec.talk().numberAtEndpoint();
      boolean sameUnit =
          number.isPresent()
              && number.equals(other.talk().numberAtEndpoint())
              && spec.endpoint().equals(other.endpoint());
      if (sameUnit) {
        section.mistake(
            "unit_id",
            "\""
                + other.name()
                + "\" is unit "
                + number.getAsInt()
                + " at the same address; give each its own, or let one instrument play all roles");
      }
    }
  }

  private static void noteDoubles(
      TomlSection section,
      InstrumentSpec spec,
      Map<String, String> names,
      Map<Role, String> players) {
    if (names.put(spec.name(), spec.name()) != null) {
      section.mistake(
          "name", "\"" + spec.name() + "\" is taken; give each instrument its own name");
    }
    for (Role role : spec.roles()) {
      String other = players.put(role, spec.name());
      if (other != null) {
        section.mistake(
            "roles",
            "\"" + role.key() + "\" is already played by \"" + other + "\"; only one may play it");
      }
    }
  }
}
