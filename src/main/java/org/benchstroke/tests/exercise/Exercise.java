package org.benchstroke.tests.exercise;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.judge.TestKind;
import org.benchstroke.judge.TestResult;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Full strokes before anything is measured.
 *
 * @param strokes how many, there and back
 */
public record Exercise(int strokes) implements TestSpec {
  static final String NAME = "exercise";

  /** Its line in the catalogue. */
  public static final TestKind<Exercise> KIND =
      new TestKind<>(
          NAME, Exercise.class, Exercise::read, (judged, spec, attempt) -> TestResult::nothing);

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
