package org.benchstroke.tests.travel;

import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.Stretch;

/** Finds the cycles of a travel error test in a trace. Immutable. */
final class TravelRounds {
  private final TravelError spec;
  private final List<TravelError.Stop> round;
  private final Plateaus file;

  TravelRounds(TravelError spec, Plateaus file) {
    this.spec = spec;
    this.round = spec.cycle();
    this.file = file;
  }

  /** The stretch that shows them, at or after a plateau. */
  Stretch find(int from) {
    int begin = begin(from);
    if (begin < 0) {
      return Stretch.none("the file shows no move from one of its points to the next");
    }
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    Map<TravelError.Place, Integer> visits = new HashMap<>();
    Map<TravelError.Place, Boolean> clean = new HashMap<>();
    int wanted = round.size() * spec.cycles();
    int end = begin + 1;
    for (int i = begin + 1; i < file.count(); i++) {
      if (moved(round, i)) {
        boolean up = file.change(i) > 0.0;
        TravelError.Place point = place(file.point(i), up, 0);
        // An approach that wasn't clean and was made again is the same cycle's.
        int before = visits.getOrDefault(point, 0);
        int cycle = before > 0 && !clean.get(point) ? before : before + 1;
        if (cycle > spec.cycles()) {
          break;
        }
        visits.put(point, cycle);
        clean.put(point, file.clean(i) || !file.settled(i));
        waits.put(i, new Stretch.Wait(place(file.point(i), up, cycle), file.direction(i), cycle));
        end = i + 1;
      }
      long made = visits.values().stream().mapToInt(v -> v).sum();
      boolean allClean = clean.values().stream().allMatch(c -> c);
      if (made == wanted && allClean) {
        break;
      }
    }
    return new Stretch(begin, end, waits, missing(visits));
  }

  /**
   * Where the cycles set out: best where their first two moves follow each other, for the unit may
   * have been brought to the start over the same point; else at the first move, else at any.
   */
  private int begin(int from) {
    int first = -1;
    int any = -1;
    for (int i = from + 1; i < file.count(); i++) {
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
  private boolean moved(List<TravelError.Stop> stops, int index) {
    return stops.stream()
        .anyMatch(
            s ->
                file.isPoint(index - 1, s.from().percent())
                    && file.isPoint(index, s.to().percent()));
  }

  private static TravelError.Place place(double setpoint, boolean up, int cycle) {
    return new TravelError.Place(setpoint, up ? Direction.UP : Direction.DOWN, cycle);
  }

  private String missing(Map<TravelError.Place, Integer> visits) {
    Set<String> missing = new LinkedHashSet<>();
    for (TravelError.Stop stop : round) {
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
        : "the file does not show every approach, in % of travel: " + String.join(", ", missing);
  }
}
