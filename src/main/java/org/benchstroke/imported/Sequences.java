package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.tests.holds.Holds;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.ramp.SlowRamp;
import org.benchstroke.tests.stairs.StairPlan;
import org.benchstroke.tests.steps.Steps;
import org.benchstroke.unit.UnitType;

/**
 * Finds steps, holds, ramps, losses of the signal and staircases in the setpoints of a file.
 * Immutable.
 */
final class Sequences {
  /** A current this close to one that was ordered is that one, mA; our choice. */
  private static final double SAME_MILLIAMPS = 0.02;

  /** Below it nothing flows: the loop is as good as open, mA; our choice. */
  private static final double OPEN_MILLIAMPS = 0.2;

  /** A staircase is approached from further off than this many of its finest steps. */
  private static final double APPROACH_STEPS = 10.0;

  private final List<Plateau> plateaus;
  private final List<Double> setpoints;
  private final UnitType unit;
  private final Tolerance tolerance;

  Sequences(List<Plateau> plateaus, List<Double> setpoints, UnitType unit, Tolerance tolerance) {
    this.plateaus = List.copyOf(plateaus);
    this.setpoints = List.copyOf(setpoints);
    this.unit = unit;
    this.tolerance = tolerance;
  }

  private boolean at(int index, double percent) {
    return index >= 0 && index < plateaus.size() && tolerance.same(setpoints.get(index), percent);
  }

  private double seconds(int index) {
    Plateau plateau = plateaus.get(index);
    return plateau.rows().get(plateau.rows().size() - 1).seconds() - plateau.fromSeconds();
  }

  private String direction(int index) {
    return TraceImport.direction(setpoints, index);
  }

  /** Each size once: from its lower end to its upper end and back. */
  Stretch steps(Steps spec, int from) {
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    List<String> missing = new ArrayList<>();
    int begin = -1;
    int next = from;
    for (double size : spec.sizes()) {
      double low = spec.at().percent() - size / 2.0;
      double high = spec.at().percent() + size / 2.0;
      int found = -1;
      for (int i = next; i < plateaus.size() && found < 0; i++) {
        found = at(i, low) && at(i + 1, high) && at(i + 2, low) ? i : -1;
      }
      if (found < 0) {
        missing.add(Numbers.plain(size) + " %");
      } else {
        waits.put(found + 1, new Stretch.Wait(new Steps.Change(size, Direction.UP), "up", 1));
        waits.put(found + 2, new Stretch.Wait(new Steps.Change(size, Direction.DOWN), "down", 1));
        begin = begin < 0 ? found : begin;
        next = found + 2;
      }
    }
    String note =
        missing.isEmpty() ? "" : "the file shows no step of " + String.join(", ", missing);
    return begin < 0
        ? Stretch.none("the file shows none of its steps, from below their middle up and back")
        : new Stretch(begin, next + 1, waits, note);
  }

  /** Each point in order, where the setpoint stays long enough after the unit can have come. */
  Stretch holds(Holds spec, int from) {
    Map<Integer, Stretch.Watch> watches = new HashMap<>();
    List<String> missing = new ArrayList<>();
    int begin = -1;
    int next = from;
    for (int hold = 0; hold < spec.points().size(); hold++) {
      Position point = spec.points().get(hold);
      int found = -1;
      for (int i = next; i < plateaus.size() && found < 0; i++) {
        double way = setpoints.get(Math.max(0, i - 1)) - point.percent();
        boolean stays = seconds(i) >= unit.travelSeconds(way) + spec.seconds();
        found = at(i, point.percent()) && stays ? i : -1;
      }
      if (found < 0) {
        missing.add(Numbers.plain(point.percent()) + " %");
      } else {
        watches.put(found, new Stretch.Watch(spec.stay(hold), spec.seconds()));
        begin = begin < 0 ? found : begin;
        next = found + 1;
      }
    }
    String lacking =
        "the file does not stay for " + Numbers.plain(spec.seconds()) + " s at " + missing;
    return begin < 0
        ? Stretch.none(lacking)
        : new Stretch(
            begin, next, Map.of(), watches, Map.of(), List.of(), missing.isEmpty() ? "" : lacking);
  }

  /** There and back, in many steps that all go the same way. */
  Stretch ramp(SlowRamp spec, int from) {
    for (int i = from; i < plateaus.size(); i++) {
      Optional<Stretch.Ramp> there =
          ramp(SlowRamp.Way.THERE, i, spec.from().percent(), spec.to().percent());
      if (there.isPresent()) {
        int turn = there.get().to();
        Optional<Stretch.Ramp> back =
            ramp(SlowRamp.Way.BACK, turn, spec.to().percent(), spec.from().percent());
        List<Stretch.Ramp> ramps = new ArrayList<>(List.of(there.get()));
        back.ifPresent(ramps::add);
        int end = back.map(Stretch.Ramp::to).orElse(turn) + 1;
        String note = back.isPresent() ? "" : "the file shows no ramp back";
        return new Stretch(i, end, Map.of(), Map.of(), Map.of(), ramps, note);
      }
    }
    return Stretch.none("the file shows no even ramp between its two places");
  }

  private Optional<Stretch.Ramp> ramp(SlowRamp.Way way, int begin, double from, double to) {
    double sign = Math.signum(to - from);
    if (!at(begin, from)) {
      return Optional.empty();
    }
    int i = begin + 1;
    while (i < plateaus.size()
        && sign * (setpoints.get(i) - setpoints.get(i - 1)) > 0.0
        && !at(i, to)) {
      i++;
    }
    boolean slow = i - begin > 2;
    return at(i, to) && slow ? Optional.of(new Stretch.Ramp(way, begin + 1, i)) : Optional.empty();
  }

  /**
   * Each way of losing the signal: from the place to that current; at the end back to the place.
   */
  Stretch loss(SignalLoss spec, int from) {
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    Map<Integer, Boolean> losses = new HashMap<>();
    int begin = -1;
    int next = from;
    List<String> missing = new ArrayList<>();
    for (LossWay way : spec.ways()) {
      int found = -1;
      for (int i = Math.max(1, next); i < plateaus.size() && found < 0; i++) {
        found = at(i - 1, spec.at().percent()) && is(way, i) ? i : -1;
      }
      if (found < 0) {
        missing.add(way.key());
      } else {
        waits.put(found, new Stretch.Wait(way, "none", 0));
        losses.put(found, way == LossWay.OPEN_LOOP);
        begin = begin < 0 ? found - 1 : begin;
        next = found + 1;
      }
    }
    if (begin < 0) {
      return Stretch.none("the file shows no loss of the signal from its place");
    }
    if (at(next, spec.at().percent())) {
      waits.put(next, new Stretch.Wait(SignalLoss.Return.RECOVERY, "none", 0));
      next++;
    }
    String note = missing.isEmpty() ? "" : "the file shows no loss: " + String.join(", ", missing);
    return new Stretch(begin, next, waits, Map.of(), losses, List.of(), note);
  }

  private boolean is(LossWay way, int index) {
    double milliamps = plateaus.get(index).milliamps();
    return switch (way) {
      case OPEN_LOOP, ZERO -> milliamps <= OPEN_MILLIAMPS;
      case LOW -> near(milliamps, unit.signalLoss().holdsMilliamps().milliamps());
      case LOST -> near(milliamps, unit.signalLoss().lostMilliamps().milliamps());
      case HIGH ->
          unit.signalLoss().highMilliamps().map(h -> near(milliamps, h.milliamps())).orElse(false);
    };
  }

  /** Whether a plateau is a step of one of the sizes, either way. */
  boolean isStep(Steps spec, int index) {
    for (double size : spec.sizes()) {
      double low = spec.at().percent() - size / 2.0;
      double high = spec.at().percent() + size / 2.0;
      boolean up = at(index - 1, low) && at(index, high);
      if (up || (at(index - 1, high) && at(index, low))) {
        return true;
      }
    }
    return false;
  }

  /** Whether the signal is lost on a plateau, from any place and in any way. */
  boolean isLoss(int index) {
    return !lost(index - 1) && lost(index);
  }

  private boolean lost(int index) {
    return unsignalled(index) || Stream.of(LossWay.values()).anyMatch(way -> is(way, index));
  }

  /** Whether the unit must take its signal for lost on a plateau, whoever asked for it. */
  boolean unsignalled(int index) {
    double milliamps = plateaus.get(index).milliamps();
    return milliamps <= unit.signalLoss().lostMilliamps().milliamps()
        || is(LossWay.HIGH, index)
        || unit.signalLoss().highMilliamps().filter(h -> milliamps >= h.milliamps()).isPresent();
  }

  /** Whether so little flows on a plateau that the loop is as good as open. */
  boolean open(int index) {
    return plateaus.get(index).milliamps() <= OPEN_MILLIAMPS;
  }

  /** How many small steps one way follow an approach to a plateau, from further off. */
  int stair(StairPlan plan, boolean reverses, int index) {
    double way = Math.signum(setpoints.get(index) - setpoints.get(index - 1));
    boolean far = Math.abs(setpoints.get(index) - setpoints.get(index - 1)) > farPercent(plan);
    return far ? probes(plan, index, reverses ? -way : way) : 0;
  }

  /** Whether a plateau is at one of the places of a plan. */
  boolean isPlace(StairPlan plan, int index) {
    return plan.places().stream().anyMatch(p -> at(index, p.percent()));
  }

  private static double farPercent(StairPlan plan) {
    return APPROACH_STEPS * plan.step();
  }

  private static boolean near(double milliamps, double ordered) {
    return milliamps > OPEN_MILLIAMPS && Math.abs(milliamps - ordered) <= SAME_MILLIAMPS;
  }

  /**
   * Every approach to one of the places, and the small steps after it that lead away one way. A
   * search that comes again the same way is the same cycle's.
   */
  Stretch stairs(String name, StairPlan plan, boolean reverses, int from) {
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    Map<StairPlan.Climb, Integer> cycles = new HashMap<>();
    Optional<StairPlan.Climb> last = Optional.empty();
    int begin = -1;
    int end = from;
    for (int i = Math.max(1, from); i < plateaus.size(); i++) {
      Optional<Position> place = approached(plan, i);
      if (place.isEmpty()) {
        continue;
      }
      double way = Math.signum(setpoints.get(i) - setpoints.get(i - 1));
      double sign = reverses ? -way : way;
      int probes = probes(plan, i, sign);
      if (probes == 0) {
        continue;
      }
      Direction side = way > 0.0 ? Direction.UP : Direction.DOWN;
      StairPlan.Climb of = new StairPlan.Climb(name, place.get(), side, 0);
      int cycle = cycles.getOrDefault(of, 0) + (last.filter(of::equals).isPresent() ? 0 : 1);
      if (cycle > plan.cycles()) {
        break;
      }
      cycles.put(of, cycle);
      StairPlan.Climb climb = new StairPlan.Climb(name, place.get(), side, cycle);
      waits.put(i, new Stretch.Wait(climb, direction(i), cycle));
      for (int probe = 1; probe <= probes; probe++) {
        waits.put(i + probe, new Stretch.Wait(climb, probe, sign > 0.0 ? "up" : "down", cycle));
      }
      last = Optional.of(of);
      begin = begin < 0 ? i - 1 : begin;
      end = i + probes + 1;
    }
    return begin < 0
        ? Stretch.none("the file shows no small steps after an approach to its places")
        : new Stretch(begin, end, waits, "");
  }

  private Optional<Position> approached(StairPlan plan, int index) {
    double way = Math.abs(setpoints.get(index) - setpoints.get(index - 1));
    return plan.places().stream()
        .filter(p -> at(index, p.percent()) && way > farPercent(plan))
        .findFirst();
  }

  /** How many steps follow that lead further and further away, none beyond the most. */
  private int probes(StairPlan plan, int approach, double sign) {
    double start = setpoints.get(approach);
    int count = 0;
    double total = 0.0;
    while (approach + count + 1 < plateaus.size()) {
      double next = sign * (setpoints.get(approach + count + 1) - start);
      if (next <= total || next > plan.most() * 1.001) {
        break;
      }
      total = next;
      count++;
    }
    return count;
  }
}
