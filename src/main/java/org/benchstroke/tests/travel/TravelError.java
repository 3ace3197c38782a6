package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Direction;
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
 * Error at setpoints, approached from below and from above.
 *
 * @param points rising, at least two
 * @param cycles how many times up and down
 * @param start the point where each cycle begins and ends; one of the points
 * @param upFirst whether a cycle sets out upwards
 * @param repeats how often one place is approached each way after the cycles, to see how the unit
 *     scatters; 0 if it is not
 * @param repeatsAt that place, inside the points
 */
public record TravelError(
    List<Position> points,
    int cycles,
    Position start,
    boolean upFirst,
    int repeats,
    Position repeatsAt)
    implements TestSpec {
  static final String NAME = "travel error";

  /** Its line in the catalogue. */
  public static final TestKind<TravelError> KIND =
      new TestKind<>(NAME, TravelError.class, TravelError::read, TravelJudge::new);

  /** How it is found in files of others. */
  public static final TestInFile<TravelError> IN_FILE = new TravelInFile();

  /** Repeated approaches come from so far off, % of travel. */
  private static final double APPROACH_PERCENT = 10.0;

  public TravelError {
    points = List.copyOf(points);
  }

  /** Without repeated approaches. */
  public TravelError(List<Position> points, int cycles, Position start, boolean upFirst) {
    this(points, cycles, start, upFirst, 0, middle(points));
  }

  /** From the lowest point up and down again. */
  public TravelError(List<Position> points, int cycles) {
    this(points, cycles, points.get(0), true);
  }

  /** Mid travel, or the middle of points that lie elsewhere. */
  private static Position middle(List<Position> points) {
    double low = points.isEmpty() ? 0.0 : points.get(0).percent();
    double high = points.isEmpty() ? 100.0 : points.get(points.size() - 1).percent();
    boolean around = low <= 50.0 - APPROACH_PERCENT && high >= 50.0 + APPROACH_PERCENT;
    return Position.ofPercent(around ? 50.0 : (low + high) / 2.0);
  }

  /**
   * One reading of the test.
   *
   * @param setpointPercent where, % of travel
   * @param direction from which side it is approached
   * @param cycle in which cycle, from 1; of repeated approaches, its number
   * @param repeated whether it belongs to the approaches that are repeated after the cycles
   */
  public record Place(double setpointPercent, Direction direction, int cycle, boolean repeated)
      implements Aim {
    /** One of the cycles. */
    public Place(double setpointPercent, Direction direction, int cycle) {
      this(setpointPercent, direction, cycle, false);
    }

    @Override
    public String words() {
      String at = Numbers.plain(setpointPercent) + " " + direction.text();
      return (repeated ? "travel repeat " : "travel ") + at;
    }

    @Override
    public ByEye byEye() {
      return ByEye.ALL;
    }
  }

  /** A move from one point to its neighbour. */
  public record Stop(Position from, Position to) {
    public boolean up() {
      return to.percent() > from.percent();
    }

    private Direction direction() {
      return up() ? Direction.UP : Direction.DOWN;
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
    int repeats = section.integer("repeats", 2, 20, 0);
    OptionalDouble where =
        section.optionalNumber(
            "repeats_at_pct", APPROACH_PERCENT, 100.0 - APPROACH_PERCENT, "% of travel");
    if (where.isPresent() && repeats == 0) {
      section.mistake("repeats_at_pct", "says where, but repeats is missing: how often, each way");
    }
    Position repeatsAt =
        where.isPresent() ? Position.ofPercent(where.getAsDouble()) : middle(points);
    return new TravelError(points, cycles, start, upFirst, repeats, repeatsAt);
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
    actions.add(moves.leadIn("travel start", settle.from()));
    actions.add(
        moves.approach(new Aim.LeadIn("travel settle"), settle.from(), settle.to(), 0, true));
    for (int cycle = 1; cycle <= cycles; cycle++) {
      for (Stop stop : round) {
        Place place = new Place(stop.to().percent(), stop.direction(), cycle);
        actions.add(moves.approach(place, stop.from(), stop.to(), cycle, true));
      }
    }
    actions.addAll(repeated(moves));
    return actions;
  }

  /** From 10 % of travel below, on to as much above, back from there, and on to below. */
  private List<Action> repeated(Moves moves) {
    Position below = Position.ofPercent(Math.max(0.0, repeatsAt.percent() - APPROACH_PERCENT));
    Position above = Position.ofPercent(Math.min(100.0, repeatsAt.percent() + APPROACH_PERCENT));
    List<Action> actions = new ArrayList<>();
    for (int i = 1; i <= repeats; i++) {
      actions.add(
          i == 1
              ? moves.approach(new Aim.LeadIn("travel repeat start"), start, below, 0, false)
              : moves.approach(new Aim.LeadIn("travel repeat below"), repeatsAt, below, 0, false));
      actions.add(moves.approach(repeat(Direction.UP, i), below, repeatsAt, i, true));
      actions.add(
          moves.approach(new Aim.LeadIn("travel repeat above"), repeatsAt, above, 0, false));
      actions.add(moves.approach(repeat(Direction.DOWN, i), above, repeatsAt, i, true));
    }
    return actions;
  }

  /** The places of the cycles, in the order in which they are approached. */
  public List<Place> places() {
    List<Place> places = new ArrayList<>();
    for (int cycle = 1; cycle <= cycles; cycle++) {
      for (Stop stop : cycle()) {
        places.add(new Place(stop.to().percent(), stop.direction(), cycle));
      }
    }
    return places;
  }

  /** A repeated approach, from 1. */
  public Place repeat(Direction direction, int number) {
    return new Place(repeatsAt.percent(), direction, number, true);
  }

  @Override
  public boolean byEye() {
    return true;
  }
}
