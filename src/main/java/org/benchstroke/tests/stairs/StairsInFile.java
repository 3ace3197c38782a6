package org.benchstroke.tests.stairs;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.Stretch;
import org.benchstroke.imported.TraceFinder;

/** Finds staircases in files of others: small steps after an approach. Immutable. */
final class StairsInFile {
  /** A staircase is approached from further off than this many of its finest steps. */
  private static final double APPROACH_STEPS = 10.0;

  /** One small step after an approach is no staircase, unless one was asked for there. */
  private static final int LEAST_STAIRS = 2;

  private final String name;
  private final StairPlan plan;
  private final boolean reverses;
  private final Plateaus file;

  /**
   * In a file.
   *
   * @param name the test's name
   * @param reverses whether the signal turns round after the approach
   */
  StairsInFile(String name, StairPlan plan, boolean reverses, Plateaus file) {
    this.name = name;
    this.plan = plan;
    this.reverses = reverses;
    this.file = file;
  }

  TraceFinder finder() {
    return new TraceFinder(
        this::find,
        new TraceFinder.More(
            this::isOne,
            "staircase",
            "staircases",
            "raise its cycles, or add the place to its at_pct"));
  }

  /** At another place than asked it takes two steps on which the unit came to rest. */
  private boolean isOne(int index, IntPredicate free) {
    int probes = isFar(index) ? probes(index) : 0;
    boolean rested = IntStream.rangeClosed(index + 1, index + LEAST_STAIRS).allMatch(file::settled);
    return probes > 0
        && free.test(index + 1)
        && (place(index).isPresent() || (probes >= LEAST_STAIRS && rested));
  }

  private boolean isFar(int index) {
    return Math.abs(file.change(index)) > APPROACH_STEPS * plan.step();
  }

  /** The place of the plan that a plateau is at. */
  private Optional<Position> place(int index) {
    return plan.places().stream().filter(p -> file.isNear(index, p.percent())).findFirst();
  }

  /** The way of the steps after an approach. */
  private double sign(int approach) {
    double way = Math.signum(file.change(approach));
    return reverses ? -way : way;
  }

  /** How many steps follow that lead further and further away, none beyond the most. */
  private int probes(int approach) {
    double start = file.point(approach);
    int count = 0;
    double total = 0.0;
    while (approach + count + 1 < file.count()) {
      double next = sign(approach) * (file.point(approach + count + 1) - start);
      if (next <= total || next > plan.most() * 1.001) {
        break;
      }
      total = next;
      count++;
    }
    return count;
  }

  /**
   * Every approach to one of the places, and the small steps after it that lead away one way. A
   * search that comes again the same way is the same cycle's.
   */
  private Stretch find(int from) {
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    Map<StairPlan.Climb, Integer> cycles = new HashMap<>();
    Optional<StairPlan.Climb> last = Optional.empty();
    int begin = -1;
    int end = from;
    for (int i = Math.max(1, from); i < file.count(); i++) {
      Optional<Position> place = isFar(i) ? place(i) : Optional.empty();
      int probes = place.isPresent() ? probes(i) : 0;
      if (probes == 0) {
        continue;
      }
      Direction side = file.change(i) > 0.0 ? Direction.UP : Direction.DOWN;
      StairPlan.Climb of = new StairPlan.Climb(name, place.orElseThrow(), side, 0);
      int cycle = cycles.getOrDefault(of, 0) + (last.filter(of::equals).isPresent() ? 0 : 1);
      if (cycle > plan.cycles()) {
        break;
      }
      cycles.put(of, cycle);
      StairPlan.Climb climb = new StairPlan.Climb(name, place.orElseThrow(), side, cycle);
      waits.put(i, new Stretch.Wait(climb, file.direction(i), cycle));
      for (int probe = 1; probe <= probes; probe++) {
        waits.put(i + probe, new Stretch.Wait(climb, probe, sign(i) > 0.0 ? "up" : "down", cycle));
      }
      last = Optional.of(of);
      begin = begin < 0 ? i - 1 : begin;
      end = i + probes + 1;
    }
    return begin < 0
        ? Stretch.none("the file shows no small steps after an approach to its places")
        : new Stretch(begin, end, waits, "");
  }
}
