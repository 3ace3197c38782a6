package org.benchstroke.tests.loss;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.benchstroke.imported.Plateaus;
import org.benchstroke.imported.Stretch;
import org.benchstroke.imported.TraceFinder;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.unit.UnitType;

/** Finds losses of the signal in files of others. Immutable. */
final class LossInFile {
  private final SignalLoss spec;
  private final Plateaus file;

  private LossInFile(SignalLoss spec, Plateaus file) {
    this.spec = spec;
    this.file = file;
  }

  static TraceFinder finder(SignalLoss spec, Plateaus file) {
    LossInFile loss = new LossInFile(spec, file);
    return new TraceFinder(
        loss::find,
        new TraceFinder.More(
            (i, free) -> !loss.lost(i - 1) && loss.lost(i),
            "loss of the signal",
            "losses of the signal"));
  }

  /** From any place and in any way. */
  private boolean lost(int index) {
    return file.unsignalled(index) || Stream.of(LossWay.values()).anyMatch(way -> is(way, index));
  }

  private boolean is(LossWay way, int index) {
    UnitType.SignalLoss ordered = file.unit().signalLoss();
    return switch (way) {
      case OPEN_LOOP, ZERO -> file.open(index);
      case LOW -> file.carries(index, ordered.holdsMilliamps());
      case LOST -> file.carries(index, ordered.lostMilliamps());
      case HIGH -> ordered.highMilliamps().filter(h -> file.carries(index, h)).isPresent();
    };
  }

  /** Each way of losing it: from the place to that current; at the end back to the place. */
  private Stretch find(int from) {
    Map<Integer, Stretch.Wait> waits = new HashMap<>();
    Map<Integer, Boolean> losses = new HashMap<>();
    int begin = -1;
    int next = from;
    List<String> missing = new ArrayList<>();
    for (LossWay way : spec.ways()) {
      int found = file.first(Math.max(1, next), i -> atPlace(i - 1) && is(way, i));
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
    if (atPlace(next)) {
      waits.put(next, new Stretch.Wait(SignalLoss.Return.RECOVERY, "none", 0));
      next++;
    }
    String note = missing.isEmpty() ? "" : "the file shows no loss: " + String.join(", ", missing);
    return new Stretch(begin, next, waits, Map.of(), losses, List.of(), note);
  }

  private boolean atPlace(int index) {
    return file.isNear(index, spec.at().percent());
  }
}
