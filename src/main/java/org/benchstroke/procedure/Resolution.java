package org.benchstroke.procedure;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;

/**
 * Resolution: approach a place one way, go on, and find the change of the signal that moves it.
 *
 * @param plan how and where
 */
public record Resolution(StairPlan plan) implements TestSpec {
  static final String NAME = "resolution";

  static Resolution read(TomlSection section) {
    return new Resolution(StairPlan.read(section));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    return plan.actions(NAME, false, moves);
  }
}
