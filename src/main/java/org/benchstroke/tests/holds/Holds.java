package org.benchstroke.tests.holds;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Hunting: whether the unit stays where the signal holds it.
 *
 * @param points the setpoints, in order
 * @param seconds how long it is watched at each, s
 */
public record Holds(List<Position> points, double seconds) implements TestSpec {
  static final String NAME = "hunting";

  /** Its line in the catalogue. */
  public static final TestKind<Holds> KIND =
      new TestKind<>(NAME, Holds.class, Holds::read, HuntingMeasures::new);

  /** How it is found in files of others. */
  public static final TestInFile<Holds> IN_FILE = TestInFile.of(Holds.class, HoldsInFile::finder);

  public Holds {
    points = List.copyOf(points);
  }

  static Holds read(TomlSection section) {
    List<Position> points =
        section.numbers("points_pct", 0, 100, "% of travel").stream()
            .map(Position::ofPercent)
            .toList();
    return new Holds(points, section.number("hold_s", 5, 3600, "s"));
  }

  @Override
  public String name() {
    return NAME;
  }

  /**
   * The approach may not come to rest: a unit that hunts never does, and is watched all the same.
   */
  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (int i = 0; i < points.size(); i++) {
      actions.add(moves.leadIn("hold start", points.get(i)));
      actions.add(new Action.Hold(stay(i), seconds));
    }
    return actions;
  }

  /** A hold by its number, from 0: a point may come twice. */
  public Stay stay(int number) {
    return new Stay(number, points.get(number));
  }

  /**
   * One hold.
   *
   * @param number which one, from 0
   * @param at the setpoint
   */
  public record Stay(int number, Position at) implements Aim {
    @Override
    public String words() {
      return "hold " + Numbers.plain(at.percent());
    }
  }
}
