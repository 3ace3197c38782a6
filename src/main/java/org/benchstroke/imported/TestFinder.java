package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.tests.endurance.Endurance;
import org.benchstroke.tests.exercise.Exercise;
import org.benchstroke.tests.holds.Holds;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.ramp.SlowRamp;
import org.benchstroke.tests.stairs.DeadBand;
import org.benchstroke.tests.stairs.Resolution;
import org.benchstroke.tests.stairs.StairPlan;
import org.benchstroke.tests.steps.Steps;
import org.benchstroke.tests.stroke.StrokeTime;
import org.benchstroke.tests.travel.TravelError;

/** Finds the tests of a procedure in the setpoints of a file. Immutable. */
final class TestFinder {
  /** One small step after an approach is no staircase, unless one was asked for there. */
  private static final int LEAST_STAIRS = 2;

  /** So many steps one way, on which nothing came to rest, are a ramp; our choice. */
  private static final int LEAST_RAMP = 10;

  private final List<Double> setpoints;
  private final List<RestFinder.Found> rests;
  private final Sequences sequences;

  /** With the setpoints of the plateaus, each the exact point where it is one, and their rests. */
  TestFinder(List<Double> setpoints, List<RestFinder.Found> rests, Sequences sequences) {
    this.setpoints = List.copyOf(setpoints);
    this.rests = List.copyOf(rests);
    this.sequences = sequences;
  }

  /** The stretches that show the tests of a procedure, one each, in order. */
  List<Stretch> all(Procedure procedure) {
    List<Stretch> stretches = new ArrayList<>();
    int next = 0;
    for (TestSpec test : procedure.tests()) {
      // A test may set out from the plateau on which the one before ended.
      Stretch stretch = of(test, Math.max(0, next - 1));
      stretches.add(stretch);
      next = stretch.found() ? stretch.to() : next;
    }
    return stretches;
  }

  /**
   * Plateaus to which the unit was moved as the test moves it, and which no test took. What a file
   * holds is evidence, whoever asked for it.
   */
  List<Integer> more(TestSpec test, List<Stretch> stretches) {
    return IntStream.range(1, setpoints.size())
        .filter(i -> free(stretches, i))
        .filter(i -> alike(test, stretches, i))
        .boxed()
        .toList();
  }

  private static boolean free(List<Stretch> stretches, int index) {
    return stretches.stream().noneMatch(s -> s.takes(index));
  }

  private boolean alike(TestSpec test, List<Stretch> stretches, int index) {
    if (test instanceof StrokeTime || test instanceof Endurance) {
      return (at(index - 1, 0.0) && at(index, 100.0)) || (at(index - 1, 100.0) && at(index, 0.0));
    }
    if (test instanceof Steps steps) {
      return sequences.isStep(steps, index);
    }
    if (test instanceof SignalLoss) {
      return sequences.isLoss(index);
    }
    if (test instanceof SlowRamp) {
      return ramped(stretches, index) && !ramped(stretches, index - 1);
    }
    if (test instanceof DeadBand band) {
      return stair(band.plan(), true, stretches, index);
    }
    return test instanceof Resolution resolution
        && stair(resolution.plan(), false, stretches, index);
  }

  /** At another place than asked it takes two steps on which the unit came to rest. */
  private boolean stair(StairPlan plan, boolean reverses, List<Stretch> stretches, int index) {
    int probes = sequences.stair(plan, reverses, index);
    boolean rested = IntStream.rangeClosed(index + 1, index + LEAST_STAIRS).allMatch(this::rested);
    return probes > 0
        && free(stretches, index + 1)
        && (sequences.isPlace(plan, index) || (probes >= LEAST_STAIRS && rested));
  }

  private boolean rested(int index) {
    return index < rests.size() && rests.get(index).settled();
  }

  /** Whether the setpoint goes on the same way from here, in steps on which nothing rests. */
  private boolean ramped(List<Stretch> stretches, int index) {
    if (index < 1 || index + LEAST_RAMP > setpoints.size()) {
      return false;
    }
    double way = setpoints.get(index) - setpoints.get(index - 1);
    return IntStream.range(index, index + LEAST_RAMP)
        .allMatch(
            i ->
                free(stretches, i)
                    && !rested(i)
                    && way * (setpoints.get(i) - setpoints.get(i - 1)) > 0.0);
  }

  /** What {@link #more} finds for a test, in words. */
  static String what(TestSpec test, int count) {
    boolean one = count == 1;
    if (test instanceof SlowRamp) {
      return one ? "ramp" : "ramps";
    }
    if (test instanceof SignalLoss) {
      return one ? "loss of the signal" : "losses of the signal";
    }
    if (test instanceof Steps) {
      return one ? "step of these sizes" : "steps of these sizes";
    }
    if (test instanceof DeadBand || test instanceof Resolution) {
      return one ? "staircase" : "staircases";
    }
    return one ? "full stroke" : "full strokes";
  }

  /** How a procedure asks for more of a test. */
  static String remedy(TestSpec test) {
    if (test instanceof StrokeTime) {
      return "raise its repeats";
    }
    if (test instanceof DeadBand || test instanceof Resolution) {
      return "raise its cycles, or add the place to its at_pct";
    }
    return test instanceof Endurance ? "raise its cycles" : "repeat the test in the procedure";
  }

  /** The stretch that shows a test, at or after a plateau. */
  Stretch of(TestSpec test, int from) {
    if (test instanceof Exercise exercise) {
      return strokes("exercise", exercise.strokes(), true, from);
    }
    if (test instanceof StrokeTime stroke) {
      return strokes("stroke", stroke.repeats(), false, from);
    }
    if (test instanceof TravelError travel) {
      return travel(travel, from);
    }
    if (test instanceof Endurance endurance) {
      return strokes("endurance", endurance.cycles(), false, from);
    }
    if (test instanceof Steps steps) {
      return sequences.steps(steps, from);
    }
    if (test instanceof Holds holds) {
      return sequences.holds(holds, from);
    }
    if (test instanceof SlowRamp ramp) {
      return sequences.ramp(ramp, from);
    }
    if (test instanceof SignalLoss loss) {
      return sequences.loss(loss, from);
    }
    if (test instanceof DeadBand band) {
      return sequences.stairs(band.name(), band.plan(), true, from);
    }
    if (test instanceof Resolution resolution) {
      return sequences.stairs(resolution.name(), resolution.plan(), false, from);
    }
    return Stretch.none("a file can't show it: it is not found in setpoint and position alone");
  }

  private boolean at(int index, double percent) {
    return index < setpoints.size() && setpoints.get(index) == percent;
  }

  /** Whether the unit must take its signal for lost on a plateau. */
  boolean unsignalled(int index) {
    return sequences.unsignalled(index);
  }

  /** Whether the loop is as good as open on a plateau. */
  boolean open(int index) {
    return sequences.open(index);
  }

  /** How many full strokes there and back follow each other from a plateau. */
  int strokesAt(int from) {
    int count = 0;
    while (at(from + 2 * count, 0.0)
        && at(from + 2 * count + 1, 100.0)
        && at(from + 2 * count + 2, 0.0)) {
      count++;
    }
    return count;
  }

  private Stretch strokes(String name, int wanted, boolean tellAction, int from) {
    int most = 0;
    for (int i = from; i < setpoints.size(); i++) {
      int count = strokesAt(i);
      most = Math.max(most, count);
      if (count >= wanted) {
        Map<Integer, Stretch.Wait> waits = new HashMap<>();
        for (int cycle = 1; cycle <= wanted; cycle++) {
          Aim opening = new Aim.Stroke(name, Aim.Stroke.Way.OPENING, cycle, tellAction);
          Aim closing = new Aim.Stroke(name, Aim.Stroke.Way.CLOSING, cycle, tellAction);
          waits.put(i + 2 * cycle - 1, new Stretch.Wait(opening, "up", cycle));
          waits.put(i + 2 * cycle, new Stretch.Wait(closing, "down", cycle));
        }
        return new Stretch(i, i + 2 * wanted + 1, waits, "");
      }
    }
    return Stretch.none(
        "the file shows "
            + (most == 0 ? "no" : "only " + most)
            + " full strokes from 0 to 100 % and back in a row there, "
            + wanted
            + " are needed");
  }

  private Stretch travel(TravelError spec, int from) {
    List<TravelError.Stop> round = spec.cycle();
    int begin = begin(round, from);
    if (begin < 0) {
      return Stretch.none("the file shows no move from one of its points to the next");
    }
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    Map<TravelError.Place, Integer> visits = new HashMap<>();
    Map<TravelError.Place, Boolean> clean = new HashMap<>();
    int wanted = round.size() * spec.cycles();
    int end = begin + 1;
    for (int i = begin + 1; i < setpoints.size(); i++) {
      if (moved(round, i)) {
        boolean up = setpoints.get(i) > setpoints.get(i - 1);
        TravelError.Place point = place(setpoints.get(i), up, 0);
        // An approach that wasn't clean and was made again is the same cycle's.
        int before = visits.getOrDefault(point, 0);
        int cycle = before > 0 && !clean.get(point) ? before : before + 1;
        if (cycle > spec.cycles()) {
          break;
        }
        visits.put(point, cycle);
        clean.put(point, rests.get(i).clean() || !rests.get(i).settled());
        waits.put(
            i, new Stretch.Wait(place(setpoints.get(i), up, cycle), up ? "up" : "down", cycle));
        end = i + 1;
      }
      long made = visits.values().stream().mapToInt(v -> v).sum();
      boolean allClean = clean.values().stream().allMatch(c -> c);
      if (made == wanted && allClean) {
        break;
      }
    }
    return new Stretch(begin, end, waits, missing(spec, visits));
  }

  /**
   * Where the cycles set out: best where their first two moves follow each other, for the unit may
   * have been brought to the start over the same point; else at the first move, else at any.
   */
  private int begin(List<TravelError.Stop> round, int from) {
    int first = -1;
    int any = -1;
    for (int i = from + 1; i < setpoints.size(); i++) {
      boolean sets = moved(round.subList(0, 1), i);
      if (sets && moved(round.subList(1, 2), i + 1)) {
        return i - 1;
      }
      first = first < 0 && sets ? i - 1 : first;
      any = any < 0 && moved(round, i) ? i - 1 : any;
    }
    return first < 0 ? any : first;
  }

  /** Whether a plateau was approached from a neighbouring point. */
  private boolean moved(List<TravelError.Stop> round, int index) {
    return round.stream()
        .anyMatch(s -> at(index - 1, s.from().percent()) && at(index, s.to().percent()));
  }

  private static TravelError.Place place(double setpoint, boolean up, int cycle) {
    return new TravelError.Place(setpoint, up ? Direction.UP : Direction.DOWN, cycle);
  }

  private static String missing(TravelError spec, Map<TravelError.Place, Integer> visits) {
    Set<String> missing = new LinkedHashSet<>();
    for (TravelError.Stop stop : spec.cycle()) {
      TravelError.Place place = place(stop.to().percent(), stop.up(), 0);
      int made = visits.getOrDefault(place, 0);
      if (made < spec.cycles()) {
        missing.add(
            Numbers.plain(place.setpointPercent())
                + " "
                + place.direction().text()
                + " ("
                + made
                + " of "
                + spec.cycles()
                + ")");
      }
    }
    return missing.isEmpty()
        ? ""
        : "the file does not show every approach, in % of travel: "
            + missing.stream().collect(Collectors.joining(", "));
  }
}
