package org.benchstroke.tests.holds;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.Stretch;
import org.benchstroke.imported.TraceFinder;

/** Finds the holds of a test for hunting in files of others. Immutable. */
final class HoldsInFile {
  private final Holds spec;
  private final Plateaus file;

  private HoldsInFile(Holds spec, Plateaus file) {
    this.spec = spec;
    this.file = file;
  }

  static TraceFinder finder(Holds spec, Plateaus file) {
    return new TraceFinder(new HoldsInFile(spec, file)::find);
  }

  /** Each point in order, where the setpoint stays long enough after the unit can have come. */
  private Stretch find(int from) {
    Map<Integer, Stretch.Watch> watches = new HashMap<>();
    List<String> missing = new ArrayList<>();
    int begin = -1;
    int next = from;
    for (int hold = 0; hold < spec.points().size(); hold++) {
      Position point = spec.points().get(hold);
      int found = file.first(next, i -> stays(i, point));
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

  private boolean stays(int index, Position point) {
    double way = file.point(Math.max(0, index - 1)) - point.percent();
    return file.isNear(index, point.percent())
        && file.seconds(index) >= file.unit().travelSeconds(way) + spec.seconds();
  }
}
