package org.benchstroke.procedure;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;

/**
 * Dead band: approach a place one way, turn round, and find the change of the signal that moves it.
 *
 * @param plan how and where
 */
public record DeadBand(StairPlan plan) implements TestSpec {
  static final String NAME = "dead band";

  static DeadBand read(TomlSection section) {
    return new DeadBand(StairPlan.read(section));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    return plan.actions(NAME, true, moves);
  }
}
