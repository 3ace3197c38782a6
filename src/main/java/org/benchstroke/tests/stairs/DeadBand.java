package org.benchstroke.tests.stairs;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Dead band: approach a place one way, turn round, and find the change of the signal that moves it.
 *
 * @param plan how and where
 */
public record DeadBand(StairPlan plan) implements TestSpec {
  static final String NAME = "dead band";

  /** Its line in the catalogue. */
  public static final TestKind<DeadBand> KIND =
      new TestKind<>(NAME, DeadBand.class, DeadBand::read, StairMeasures::ofDeadBand);

  /** How it is found in files of others. */
  public static final TestInFile<DeadBand> IN_FILE =
      TestInFile.of(
          DeadBand.class, (test, file) -> new StairsInFile(NAME, test.plan(), true, file).finder());

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
