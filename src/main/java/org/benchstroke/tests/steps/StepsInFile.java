package org.benchstroke.tests.steps;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.Stretch;
import org.benchstroke.imported.TraceFinder;

/** Finds the steps of a step response in files of others. Immutable. */
final class StepsInFile {
  private final Steps spec;
  private final Plateaus file;

  private StepsInFile(Steps spec, Plateaus file) {
    this.spec = spec;
    this.file = file;
  }

  static TraceFinder finder(Steps spec, Plateaus file) {
    StepsInFile steps = new StepsInFile(spec, file);
    return new TraceFinder(
        steps::find,
        new TraceFinder.More(
            (i, free) -> steps.isOne(i), "step of these sizes", "steps of these sizes"));
  }

  private double low(double size) {
    return spec.at().percent() - size / 2.0;
  }

  private double high(double size) {
    return spec.at().percent() + size / 2.0;
  }

  /** Whether a plateau is a step of one of the sizes, either way. */
  private boolean isOne(int index) {
    return spec.sizes().stream()
        .anyMatch(
            size -> isMove(index, low(size), high(size)) || isMove(index, high(size), low(size)));
  }

  private boolean isMove(int index, double from, double to) {
    return file.isNear(index - 1, from) && file.isNear(index, to);
  }

  /** Each size once: from its lower end to its upper end and back. */
  private Stretch find(int from) {
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    List<String> missing = new ArrayList<>();
    int begin = -1;
    int next = from;
    for (double size : spec.sizes()) {
      int found =
          file.first(
              next, i -> isMove(i + 1, low(size), high(size)) && file.isNear(i + 2, low(size)));
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
}
