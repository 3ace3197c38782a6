package org.benchstroke.tests;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;

/** Reads procedure files; a test by its name in the catalogue. Stateless. */
public final class ProcedureReader {
  /** The value of a procedure file's key {@code kind}. */
  public static final String KIND = "procedure";

  private static final Map<String, Function<TomlSection, ? extends TestSpec>> CATALOGUE =
      catalogue();

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
      Function<TomlSection, ? extends TestSpec> test = section.choice("test", CATALOGUE);
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

  private static Map<String, Function<TomlSection, ? extends TestSpec>> catalogue() {
    Map<String, Function<TomlSection, ? extends TestSpec>> catalogue = new LinkedHashMap<>();
    Catalogue.KINDS.forEach(kind -> catalogue.put(kind.name(), kind.keys()));
    return catalogue;
  }
}
