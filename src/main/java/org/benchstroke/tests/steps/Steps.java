package org.benchstroke.tests.steps;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Step response: steps of several sizes about one place, each up and down again.
 *
 * @param at the middle of the steps
 * @param sizes their sizes, % of travel, rising
 * @param band a response has settled within ± this of its end, % of travel; empty for the unit's
 *     own dead band
 */
public record Steps(Position at, List<Double> sizes, OptionalDouble band) implements TestSpec {
  static final String NAME = "step response";

  /** Its line in the catalogue. */
  public static final TestKind<Steps> KIND =
      new TestKind<>(NAME, Steps.class, Steps::read, StepMeasures::new);

  /** How it is found in files of others. */
  public static final TestInFile<Steps> IN_FILE = TestInFile.of(Steps.class, StepsInFile::finder);

  /** The approach to where the steps begin comes from this much further off, % of travel. */
  private static final double RUN_UP_PERCENT = 10.0;

  public Steps {
    sizes = List.copyOf(sizes);
  }

  static Steps read(TomlSection section) {
    double at = section.number("at_pct", 1, 99, "% of travel");
    List<Double> sizes = section.numbers("sizes_pct", 0.1, 100, "% of travel");
    for (double size : sizes) {
      if (at - size / 2.0 < 0.0 || at + size / 2.0 > 100.0) {
        section.mistake(
            "sizes_pct",
            "has a step of "
                + Numbers.plain(size)
                + " % about "
                + Numbers.plain(at)
                + " %, which leaves 0 to 100 %");
      }
    }
    if (sizes.stream().distinct().count() < sizes.size()) {
      section.mistake("sizes_pct", "holds a size twice; delete one");
    }
    OptionalDouble band = section.optionalNumber("band_pct", 0.01, 50, "% of travel");
    return new Steps(Position.ofPercent(at), sizes, band);
  }

  @Override
  public String name() {
    return NAME;
  }

  /** The step up goes on in the direction of its approach; the step down turns round. */
  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (double size : sizes) {
      Position low = Position.ofPercent(at.percent() - size / 2.0);
      Position high = Position.ofPercent(at.percent() + size / 2.0);
      Position before = Position.ofPercent(Math.max(0.0, low.percent() - RUN_UP_PERCENT));
      actions.add(moves.leadIn("step start", before));
      actions.add(moves.approach(new Aim.LeadIn("step start"), before, low, 0, true));
      actions.add(moves.approach(new Change(size, Direction.UP), low, high, 1, false));
      actions.add(watch(size, moves));
      actions.add(moves.approach(new Change(size, Direction.DOWN), high, low, 1, false));
      actions.add(watch(size, moves));
    }
    return actions;
  }

  /** It is watched on, for as long as it takes to tell that it has really come to its end. */
  private static Action watch(double size, Moves moves) {
    double seconds = moves.windowSeconds() + moves.unit().travelSeconds(size) / 2.0;
    return new Action.Hold(new Aim.LeadIn("step watched"), seconds);
  }

  /**
   * One step.
   *
   * @param sizePercent its size, % of travel
   * @param direction which way
   */
  public record Change(double sizePercent, Direction direction) implements Aim {
    @Override
    public String words() {
      return "step " + Numbers.plain(sizePercent) + " " + direction.text();
    }

    /** Where its measures are of. */
    public Location location() {
      return new Location.StepOf(sizePercent, direction);
    }
  }
}
