package org.benchstroke.tests.stairs;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Moves;

/**
 * How a staircase is climbed: what the tests "dead band" and "resolution" have in common.
 *
 * @param places where, % of travel
 * @param step the finest step δ, % of travel
 * @param search how the steps are chosen
 * @param most the largest change that is tried, % of travel
 * @param cycles how often each is done; one alone would not show how it scatters
 */
public record StairPlan(
    List<Position> places, double step, Search search, double most, int cycles) {
  /** The approach to a place comes from this far off, % of travel. Our own choice. */
  private static final double RUN_UP_PERCENT = 10.0;

  /** How the steps are chosen. */
  public enum Search {
    /** One finest step after the other. */
    FIXED("fixed", 1),
    /** Coarse until it moves, then the bracket is halved. */
    ADAPTIVE("adaptive", 8);

    private final String key;
    private final int coarseSteps;

    Search(String key, int coarseSteps) {
      this.key = key;
      this.coarseSteps = coarseSteps;
    }

    private static Map<String, Search> byKey() {
      Map<String, Search> searches = new LinkedHashMap<>();
      for (Search search : values()) {
        searches.put(search.key, search);
      }
      return searches;
    }
  }

  /**
   * One search.
   *
   * @param name the test's name, for people
   * @param at the place
   * @param approach the direction of the approach
   * @param cycle from 1
   */
  public record Climb(String name, Position at, Direction approach, int cycle) implements Aim {
    @Override
    public String words() {
      return name + " " + Numbers.plain(at.percent()) + " " + approach.text();
    }
  }

  public StairPlan {
    places = List.copyOf(places);
  }

  static StairPlan read(TomlSection section) {
    List<Position> places =
        section.numbers("at_pct", 20, 80, "% of travel").stream().map(Position::ofPercent).toList();
    double step = section.number("step_pct", 0.005, 5, "% of travel");
    Search search =
        section.has("search") ? section.choice("search", Search.byKey()) : Search.ADAPTIVE;
    double most = section.number("most_pct", 0.1, 10, "% of travel");
    if (most < 2.0 * step) {
      section.mistake("most_pct", "must be at least two steps of step_pct");
    }
    return new StairPlan(places, step, search, most, section.integer("cycles", 2, 10));
  }

  /** The coarse step, % of travel. */
  double coarse() {
    return step * search.coarseSteps;
  }

  /**
   * The searches, in order.
   *
   * @param name the test's name
   * @param reverses whether the signal turns round after the approach
   */
  List<Action> actions(String name, boolean reverses, Moves moves) {
    List<Action> actions = new ArrayList<>();
    for (Position at : places) {
      for (int cycle = 1; cycle <= cycles; cycle++) {
        for (int sign : List.of(1, -1)) {
          Position from = Position.ofPercent(at.percent() - sign * RUN_UP_PERCENT);
          actions.add(
              new Action.Staircase(
                  new Climb(name, at, sign > 0 ? Direction.UP : Direction.DOWN, cycle),
                  cycle,
                  from,
                  at,
                  reverses ? -sign : sign,
                  coarse(),
                  step,
                  most,
                  nominalSeconds(moves)));
        }
      }
    }
    return actions;
  }

  /** As if the unit moved at its own dead band: for the seconds left only. */
  private double nominalSeconds(Moves moves) {
    double halvings = Math.round(Math.log(search.coarseSteps) / Math.log(2.0));
    double probes = Math.ceil(moves.unit().deadBandPercent() / coarse()) + halvings;
    double comings = 1.0 + halvings / 2.0;
    return probes * (moves.windowSeconds() + moves.unit().offSeconds())
        + comings * 2.0 * moves.seconds(RUN_UP_PERCENT);
  }
}
