package org.benchstroke.tests.stroke;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Time for full travel each way.
 *
 * @param repeats how many times each way
 */
public record StrokeTime(int repeats) implements TestSpec {
  static final String NAME = "stroke time";

  /** Its line in the catalogue. */
  public static final TestKind<StrokeTime> KIND =
      new TestKind<>(NAME, StrokeTime.class, StrokeTime::read, StrokeMeasures::new);

  /** How it is found in files of others. */
  public static final TestInFile<StrokeTime> IN_FILE = new StrokesInFile();

  static StrokeTime read(TomlSection section) {
    return new StrokeTime(section.integer("repeats", 1, 100));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    return moves.strokes("stroke", repeats, false);
  }
}
