package org.benchstroke.procedure;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.quantity.Position;

/** Reads procedure files; holds the catalogue of tests. Stateless. */
public final class ProcedureReader {
  /** The value of a procedure file's key {@code kind}. */
  public static final String KIND = "procedure";

  private static final Map<String, Function<TomlSection, TestSpec>> CATALOGUE = catalogue();

  private ProcedureReader() {}

  /**
   * Reads a file.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static Procedure read(Path path) throws FileMistakes {
    return read(TomlDocument.read(path));
  }

  /**
   * Reads a document that has been opened.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static Procedure read(TomlDocument document) throws FileMistakes {
    document.expect(KIND);
    TomlSection root = document.root();
    String name = root.text("name");
    String version = root.text("version");
    List<TestSpec> tests = new ArrayList<>();
    for (TomlSection section : root.sections("test")) {
      Function<TomlSection, TestSpec> test = section.choice("test", CATALOGUE);
      // The keys of a test that is not known can't be judged.
      if (section.optional("test").filter(CATALOGUE::containsKey).isPresent()) {
        tests.add(test.apply(section));
        section.noOtherKeys();
      }
    }
    root.noOtherKeys();
    document.finish();
    return new Procedure(name, version, tests);
  }

  private static Map<String, Function<TomlSection, TestSpec>> catalogue() {
    Map<String, Function<TomlSection, TestSpec>> catalogue = new LinkedHashMap<>();
    catalogue.put("exercise", section -> new TestSpec.Exercise(section.integer("strokes", 1, 100)));
    catalogue.put(
        "stroke time", section -> new TestSpec.StrokeTime(section.integer("repeats", 1, 100)));
    catalogue.put("travel error", ProcedureReader::travelError);
    catalogue.put("signal loss", ProcedureReader::signalLoss);
    return catalogue;
  }

  private static TestSpec travelError(TomlSection section) {
    List<Position> points = new ArrayList<>();
    for (double percent : section.numbers("points_pct", 0, 100, "% of travel")) {
      points.add(Position.ofPercent(percent));
    }
    boolean rising =
        IntStream.range(1, points.size())
            .allMatch(i -> points.get(i).compareTo(points.get(i - 1)) > 0);
    if (!rising) {
      section.mistake("points_pct", "must rise from one to the next; sort them");
    }
    if (points.size() == 1) {
      section.mistake("points_pct", "holds one point; a travel error needs at least two");
    }
    return new TestSpec.TravelError(points, section.integer("cycles", 1, 10));
  }

  private static TestSpec signalLoss(TomlSection section) {
    Map<String, TestSpec.SignalLoss.Way> ways = new LinkedHashMap<>();
    for (TestSpec.SignalLoss.Way way : TestSpec.SignalLoss.Way.values()) {
      ways.put(way.key(), way);
    }
    double at = section.number("at_pct", 5, 95, "% of travel");
    return new TestSpec.SignalLoss(Position.ofPercent(at), section.choices("ways", ways));
  }
}
