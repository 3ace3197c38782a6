package org.benchstroke.tests.endurance;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.FullStrokes;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.imported.TraceFinder;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Endurance: many full strokes, each of them recorded and timed.
 *
 * @param cycles how many, there and back
 */
public record Endurance(int cycles) implements TestSpec {
  static final String NAME = "endurance";

  /** Its line in the catalogue. */
  public static final TestKind<Endurance> KIND =
      new TestKind<>(NAME, Endurance.class, Endurance::read, EnduranceMeasures::new);

  /** How it is found in files of others. */
  public static final TestInFile<Endurance> IN_FILE =
      TestInFile.of(Endurance.class, Endurance::finder);

  static Endurance read(TomlSection section) {
    return new Endurance(section.integer("cycles", 10, 100_000));
  }

  private static TraceFinder finder(Endurance test, Plateaus file) {
    FullStrokes strokes = new FullStrokes(file);
    return new TraceFinder(
        from -> strokes.find(NAME, test.cycles(), false, from), strokes.more("raise its cycles"));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    return moves.strokes(NAME, cycles, false);
  }

  /** A gap voids the stroke that it lies in, not a night's work. */
  @Override
  public boolean gapVoids() {
    return false;
  }
}
