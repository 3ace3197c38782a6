package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;

/**
 * Error at setpoints, approached from below and from above.
 *
 * @param points rising, at least two
 * @param cycles how many times up and down
 * @param start the point where each cycle begins and ends; one of the points
 * @param upFirst whether a cycle sets out upwards
 */
public record TravelError(List<Position> points, int cycles, Position start, boolean upFirst)
    implements TestSpec {
  static final String NAME = "travel error";

  public TravelError {
    points = List.copyOf(points);
  }

  /** From the lowest point up and down again. */
  public TravelError(List<Position> points, int cycles) {
    this(points, cycles, points.get(0), true);
  }

  /** A move from one point to its neighbour. */
  public record Stop(Position from, Position to) {
    public boolean up() {
      return to.percent() > from.percent();
    }
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
    int cycles = section.integer("cycles", 1, 10);
    OptionalDouble at = section.optionalNumber("start_pct", 0, 100, "% of travel");
    Map<String, Boolean> directions = new LinkedHashMap<>();
    directions.put("up", true);
    directions.put("down", false);
    boolean upFirst = section.optionalChoice("first", directions).orElse(true);
    Position first = points.isEmpty() ? Position.ofPercent(0.0) : points.get(0);
    Position start = at.isPresent() ? Position.ofPercent(at.getAsDouble()) : first;
    if (at.isPresent() && !points.contains(start)) {
      section.mistake("start_pct", "is none of points_pct; a cycle begins at one of its points");
      start = first;
    }
    return new TravelError(points, cycles, start, upFirst);
  }

  @Override
  public String name() {
    return NAME;
  }

  /**
   * The moves of one cycle, in order: from the start to the one end, to the other, and back to the
   * start. Each point is approached once from each side, an end from its one side.
   */
  public List<Stop> cycle() {
    List<Stop> round = new ArrayList<>();
    for (int i = 1; i < points.size(); i++) {
      round.add(new Stop(points.get(i - 1), points.get(i)));
    }
    for (int i = points.size() - 2; i >= 0; i--) {
      round.add(new Stop(points.get(i + 1), points.get(i)));
    }
    int first = 0;
    for (int i = 0; i < round.size(); i++) {
      boolean wanted = round.get(i).up() == upFirst || atEnd();
      if (round.get(i).from().equals(start) && wanted) {
        first = i;
      }
    }
    Collections.rotate(round, -first);
    return round;
  }

  /** From an end there is one way only. */
  private boolean atEnd() {
    return start.equals(points.get(0)) || start.equals(points.get(points.size() - 1));
  }

  /** Comes to the start from the side from which the cycle will come to it; then the cycles. */
  @Override
  public List<Action> actions(Moves moves) {
    List<Stop> round = cycle();
    Stop settle = round.get(round.size() - 1);
    List<Action> actions = new ArrayList<>();
    actions.add(moves.anywhere("travel start", settle.from()));
    actions.add(moves.approach("travel settle", settle.from(), settle.to(), 0, true));
    for (int cycle = 1; cycle <= cycles; cycle++) {
      for (Stop stop : round) {
        actions.add(move(moves, stop, cycle));
      }
    }
    return actions;
  }

  private static Action move(Moves moves, Stop stop, int cycle) {
    String point = "travel " + Numbers.plain(stop.to().percent()) + (stop.up() ? " up" : " down");
    return moves.approach(point, stop.from(), stop.to(), cycle, true);
  }

  @Override
  public boolean byEye() {
    return true;
  }
}
