package org.benchstroke.tests.duty;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Duty: the unit starts again and again at an even rate, for some time, as its class of duty asks.
 *
 * @param from one end of each move
 * @param to its other end
 * @param startsPerHour how often its motor starts
 * @param minutes for how long, min
 */
public record DutyRun(Position from, Position to, double startsPerHour, double minutes)
    implements TestSpec {
  static final String NAME = "duty";

  /** Its line in the catalogue. */
  public static final TestKind<DutyRun> KIND =
      new TestKind<>(NAME, DutyRun.class, DutyRun::read, DutyMeasures::new);

  /**
   * One of its moves.
   *
   * @param number from 1; the odd ones go there, the others back
   */
  public record Move(int number) implements Aim {
    private boolean there() {
      return number % 2 == 1;
    }

    @Override
    public String words() {
      return there() ? "duty there" : "duty back";
    }
  }

  static DutyRun read(TomlSection section) {
    double from = section.number("from_pct", 0, 100, "% of travel");
    double to = section.number("to_pct", 0, 100, "% of travel");
    if (Math.abs(to - from) < 1.0) {
      section.mistake("to_pct", "must lie at least 1 % of travel from from_pct");
    }
    return new DutyRun(
        Position.ofPercent(from),
        Position.ofPercent(to),
        section.number("starts_per_hour", 1, 3600, "starts an hour"),
        section.number("minutes", 1, 1440, "min"));
  }

  @Override
  public String name() {
    return NAME;
  }

  /** How many moves it takes. */
  public int moves() {
    return Math.max(2, (int) Math.round(startsPerHour * minutes / 60.0));
  }

  /** Between two moves the unit rests for what is left of the time of one. */
  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    actions.add(moves.leadIn("duty start", from));
    double period = 3600.0 / startsPerHour;
    for (int move = 1; move <= moves(); move++) {
      Move aim = new Move(move);
      boolean there = aim.there();
      Action approach = moves.approach(aim, there ? from : to, there ? to : from, move, false);
      actions.add(approach);
      double rest = period - approach.seconds();
      if (rest > 0.0) {
        actions.add(new Action.Hold(new Aim.LeadIn("duty rest"), rest));
      }
    }
    return actions;
  }
}
