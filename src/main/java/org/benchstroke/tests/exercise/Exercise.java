package org.benchstroke.tests.exercise;

import java.util.List;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.FullStrokes;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.imported.TraceFinder;
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

  /** How it is found in files of others. */
  public static final TestInFile<Exercise> IN_FILE =
      TestInFile.of(Exercise.class, Exercise::finder);

  static Exercise read(TomlSection section) {
    return new Exercise(section.integer("strokes", 1, 100));
  }

  /** It measures nothing: more strokes in a file say nothing against it. */
  private static TraceFinder finder(Exercise test, Plateaus file) {
    FullStrokes strokes = new FullStrokes(file);
    return new TraceFinder(from -> strokes.find(NAME, test.strokes(), true, from));
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
