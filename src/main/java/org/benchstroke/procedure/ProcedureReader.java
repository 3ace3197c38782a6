package org.benchstroke.procedure;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;

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
    catalogue.put(Exercise.NAME, Exercise::read);
    catalogue.put(SupplyVoltage.NAME, SupplyVoltage::read);
    catalogue.put(StrokeTime.NAME, StrokeTime::read);
    catalogue.put(Switches.NAME, Switches::read);
    catalogue.put(TravelError.NAME, TravelError::read);
    catalogue.put(DeadBand.NAME, DeadBand::read);
    catalogue.put(Resolution.NAME, Resolution::read);
    catalogue.put(Steps.NAME, Steps::read);
    catalogue.put(SlowRamp.NAME, SlowRamp::read);
    catalogue.put(Holds.NAME, Holds::read);
    catalogue.put(SignalLoss.NAME, SignalLoss::read);
    catalogue.put(PowerLoss.NAME, PowerLoss::read);
    catalogue.put(DutyRun.NAME, DutyRun::read);
    catalogue.put(Endurance.NAME, Endurance::read);
    catalogue.put(ByHand.NAME, ByHand::read);
    return catalogue;
  }
}
