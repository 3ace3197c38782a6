package org.benchstroke.tests.stairs;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Resolution: approach a place one way, go on, and find the change of the signal that moves it.
 *
 * @param plan how and where
 */
public record Resolution(StairPlan plan) implements TestSpec {
  static final String NAME = "resolution";

  /** Its line in the catalogue. */
  public static final TestKind<Resolution> KIND =
      new TestKind<>(NAME, Resolution.class, Resolution::read, StairMeasures::ofResolution);

  /** How it is found in files of others. */
  public static final TestInFile<Resolution> IN_FILE =
      TestInFile.of(
          Resolution.class,
          (test, file) -> new StairsInFile(NAME, test.plan(), false, file).finder());

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
