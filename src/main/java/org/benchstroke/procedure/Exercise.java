package org.benchstroke.procedure;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;

/**
 * Full strokes before anything is measured.
 *
 * @param strokes how many, there and back
 */
public record Exercise(int strokes) implements TestSpec {
  static final String NAME = "exercise";

  static Exercise read(TomlSection section) {
    return new Exercise(section.integer("strokes", 1, 100));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    return moves.strokes("exercise", strokes, true);
  }

  @Override
  public boolean measures() {
    return false;
  }

  @Override
  public boolean byEye() {
    return true;
  }
}
