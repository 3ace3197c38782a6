package org.benchstroke.tests.partial;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.TestKind;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;
import org.benchstroke.procedure.TestSpec;

/**
 * Partial stroke, of a unit that shuts off: from rest at an end of its travel to a part of it, and
 * back. On the bench only: a valve in service must never be moved by this program.
 *
 * @param from the end at which it stands: 0 or 100 %
 * @param to how far it goes
 * @param cycles how often, there and back
 */
public record PartialStroke(Position from, Position to, int cycles) implements TestSpec {
  static final String NAME = "partial stroke";

  /** Its line in the catalogue. */
  public static final TestKind<PartialStroke> KIND =
      new TestKind<>(NAME, PartialStroke.class, PartialStroke::read, PartialStrokeMeasures::new);

  /** A shorter part is not clear of what a unit need not follow, % of travel. Our choice. */
  private static final double LEAST_PERCENT = 5.0;

  /** A longer part is no part any more, % of travel. Our choice. */
  private static final double MOST_PERCENT = 50.0;

  /** How long it stands at its end before it first sets out, s. Our choice. */
  private static final double REST_SECONDS = 5.0;

  /** Which way it goes. */
  public enum Way {
    OUT("partial stroke"),
    BACK("partial stroke back");

    private final String words;

    Way(String words) {
      this.words = words;
    }
  }

  /** When nothing moves. */
  public enum Watch implements Aim {
    AT_END;

    @Override
    public String words() {
      return "at its end";
    }
  }

  /**
   * One way of one cycle.
   *
   * @param cycle from 1
   */
  public record Part(Way way, int cycle) implements Aim {
    @Override
    public String words() {
      return way.words;
    }
  }

  static PartialStroke read(TomlSection section) {
    double from = section.number("from_pct", 0, 100, "% of travel");
    double to = section.number("to_pct", 0, 100, "% of travel");
    double part = Math.abs(to - from);
    if (from != 0.0 && from != 100.0) {
      section.mistake("from_pct", "must be an end of the travel, 0 or 100");
    } else if (part < LEAST_PERCENT || part > MOST_PERCENT) {
      section.mistake("to_pct", "must lie 5 to 50 % of travel from from_pct");
    }
    return new PartialStroke(
        Position.ofPercent(from), Position.ofPercent(to), section.integer("cycles", 1, 10));
  }

  /**
   * Where its measures are of.
   *
   * @param cycle from 1; 0 for all cycles
   */
  Location place(Way way, int cycle) {
    Position begin = way == Way.OUT ? from : to;
    Position end = way == Way.OUT ? to : from;
    return new Location.Between(begin.percent(), end.percent(), cycle);
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public List<Action> actions(Moves moves) {
    List<Action> actions = new ArrayList<>();
    actions.add(moves.leadIn("partial stroke start", from));
    actions.add(new Action.Hold(Watch.AT_END, REST_SECONDS));
    for (int cycle = 1; cycle <= cycles; cycle++) {
      actions.add(moves.approach(new Part(Way.OUT, cycle), from, to, cycle, false));
      actions.add(watch(moves));
      actions.add(moves.approach(new Part(Way.BACK, cycle), to, from, cycle, false));
      actions.add(watch(moves));
    }
    return actions;
  }

  /** It is watched on, for as long as it takes to tell that it has really come to its end. */
  private Action watch(Moves moves) {
    double part = to.percent() - from.percent();
    double seconds = moves.windowSeconds() + moves.unit().travelSeconds(part) / 2.0;
    return new Action.Hold(new Aim.LeadIn("partial stroke watched"), seconds);
  }
}
