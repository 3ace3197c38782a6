package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;

/**
 * Error at setpoints, approached from below and from above.
 *
 * @param points rising, at least two
 * @param cycles how many times up and down
 */
public record TravelError(List<Position> points, int cycles) implements TestSpec {
  static final String NAME = "travel error";

  public TravelError {
    points = List.copyOf(points);
  }

  static TravelError read(TomlSection section) {
    List<Position> points = new ArrayList<>();
    for (double percent : section.numbers("points_pct", 0, 100, "% of travel")) {
      points.add(Position.ofPercent(percent));
    }
    boolean rising =
        IntStream.range(1, points.size())
            .allMatch(i -> points.get(i).compareTo(points.get(i - 1)) > 0);
    if (!rising) {
      section.mistake("points_pct", "must rise from one to the next; sort them");
    }
    if (points.size() == 1) {
      section.mistake("points_pct", "holds one point; a travel error needs at least two");
    }
    return new TravelError(points, section.integer("cycles", 1, 10));
  }

  @Override
  public String name() {
    return NAME;
  }

  /** Up through the points and down again; the lowest is approached from above like its equals. */
  @Override
  public List<Action> actions(Moves moves) {
    Position lowest = points.get(0);
    Position above = points.get(1);
    List<Action> actions = new ArrayList<>();
    actions.add(moves.anywhere("travel start", above));
    actions.add(moves.approach("travel settle", above, lowest, 0, true));
    for (int cycle = 1; cycle <= cycles; cycle++) {
      for (int i = 1; i < points.size(); i++) {
        actions.add(move(moves, points.get(i - 1), points.get(i), cycle));
      }
      for (int i = points.size() - 2; i >= 0; i--) {
        actions.add(move(moves, points.get(i + 1), points.get(i), cycle));
      }
    }
    return actions;
  }

  private static Action move(Moves moves, Position from, Position to, int cycle) {
    String direction = to.percent() > from.percent() ? "up" : "down";
    String point = "travel " + Numbers.plain(to.percent()) + " " + direction;
    return moves.approach(point, from, to, cycle, true);
  }

  @Override
  public boolean byEye() {
    return true;
  }
}
