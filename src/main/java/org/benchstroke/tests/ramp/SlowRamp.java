package org.benchstroke.tests.ramp;

import java.util.List;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Ramp: the setpoint moves evenly from one place to another and back.
 *
 * @param from where it begins and ends
 * @param to where it turns
 * @param strokeTimes how much slower than the unit's own full stroke, for full travel
 */
public record SlowRamp(Position from, Position to, double strokeTimes) implements TestSpec {
  static final String NAME = "ramp";

  /** Its line in the catalogue. */
  public static final TestKind<SlowRamp> KIND =
      new TestKind<>(NAME, SlowRamp.class, SlowRamp::read, RampMeasures::new);

  /** How it is found in files of others. */
  public static final TestInFile<SlowRamp> IN_FILE =
      TestInFile.of(SlowRamp.class, RampInFile::finder);

  /** Its two halves. */
  public enum Way implements Aim {
    THERE("ramp there"),
    BACK("ramp back");

    private final String words;

    Way(String words) {
      this.words = words;
    }

    @Override
    public String words() {
      return words;
    }
  }

  static SlowRamp read(TomlSection section) {
    double from = section.number("from_pct", 0, 100, "% of travel");
    double to = section.number("to_pct", 0, 100, "% of travel");
    if (Math.abs(to - from) < 10.0) {
      section.mistake("to_pct", "must lie at least 10 % of travel from from_pct");
    }
    return new SlowRamp(
        Position.ofPercent(from),
        Position.ofPercent(to),
        section.number("stroke_times", 2, 100, "× stroke time"));
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    double change = to.percent() - from.percent();
    double seconds = strokeTimes * moves.unit().travelSeconds(change);
    return List.of(
        moves.leadIn("ramp start", from),
        new Action.Ramp(Way.THERE, from, to, seconds),
        moves.leadIn("ramp turn", to),
        new Action.Ramp(Way.BACK, to, from, seconds),
        moves.leadIn("ramp end", from));
  }
}
