package org.benchstroke.tests.travel;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.imported.Inferred;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.TestInFile;
import org.benchstroke.imported.TraceFinder;
import org.benchstroke.procedure.Aim;

/**
 * How a travel error test is told in files of others: in traces, and in readings that a person
 * wrote down. Immutable.
 */
final class TravelInFile implements TestInFile<TravelError> {
  private static final int MOST_CYCLES = 10;

  @Override
  public Class<TravelError> type() {
    return TravelError.class;
  }

  @Override
  public TraceFinder finder(TravelError test, Plateaus file) {
    return new TraceFinder(new TravelRounds(test, file)::find);
  }

  @Override
  public List<Position> points(TravelError test) {
    return test.points();
  }

  /** Where the unit rested, and how often each was approached from its neighbours. */
  @Override
  public Optional<Inferred> inferred(Plateaus file, boolean alone) {
    List<Double> points =
        IntStream.range(0, file.count())
            .filter(file::settled)
            .mapToObj(file::point)
            .filter(p -> p >= 0.0 && p <= 100.0)
            .distinct()
            .sorted()
            .toList();
    // The ends alone are where full strokes go.
    return points.size() < (alone ? 2 : 3) ? Optional.empty() : inferred(points, file);
  }

  private static Optional<Inferred> inferred(List<Double> points, Plateaus file) {
    Map<Aim, Integer> visits = new HashMap<>();
    int first = -1;
    for (int i = 1; i < file.count(); i++) {
      int from = points.indexOf(file.point(i - 1));
      int to = points.indexOf(file.point(i));
      if (from >= 0 && to >= 0 && Math.abs(to - from) == 1) {
        first = first < 0 ? i : first;
        Direction way = to > from ? Direction.UP : Direction.DOWN;
        visits.merge(new TravelError.Place(file.point(i), way, 0), 1, Integer::sum);
      }
    }
    if (first < 0) {
      return Optional.empty();
    }
    int cycles = visits.values().stream().mapToInt(v -> v).min().orElseThrow();
    return Optional.of(
        told(
            new TravelError(
                points.stream().map(Position::ofPercent).toList(),
                Math.min(cycles, MOST_CYCLES),
                Position.ofPercent(file.point(first - 1)),
                file.change(first) > 0.0)));
  }

  @Override
  public Optional<Readings> readings() {
    return Optional.of(new WrittenDown());
  }

  /** All setpoints as points, from the first reading's side; a hole then has no result. */
  private static final class WrittenDown implements Readings {
    @Override
    public Aim aim(double percent, Direction from, int cycle) {
      return new TravelError.Place(percent, from, cycle);
    }

    @Override
    public Optional<Inferred> inferred(SortedSet<Double> points, int cycles) {
      boolean within = points.size() > 1 && points.first() >= 0.0 && points.last() <= 100.0;
      return within
          ? Optional.of(
              told(new TravelError(points.stream().map(Position::ofPercent).toList(), cycles)))
          : Optional.empty();
    }
  }

  private static Inferred told(TravelError test) {
    String points =
        test.points().stream()
            .map(p -> Numbers.exact(p.percent()))
            .collect(Collectors.joining(", "));
    String keys =
        "points_pct = ["
            + points
            + "]\ncycles = "
            + test.cycles()
            + "\nstart_pct = "
            + Numbers.exact(test.start().percent())
            + "\nfirst = \""
            + (test.upFirst() ? "up" : "down")
            + "\"\n";
    return new Inferred(test, keys, "travel error at " + points + " %, cycles: " + test.cycles());
  }
}
