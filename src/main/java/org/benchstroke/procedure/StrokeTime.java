package org.benchstroke.procedure;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;

/**
 * Time for full travel each way.
 *
 * @param repeats how many times each way
 */
public record StrokeTime(int repeats) implements TestSpec {
  static final String NAME = "stroke time";

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
