package org.benchstroke.imported;

import java.util.HashMap;
import java.util.Map;
import org.benchstroke.procedure.Aim;

/** Full strokes in a trace. Immutable. */
public final class FullStrokes {
  private final Plateaus file;

  public FullStrokes(Plateaus file) {
    this.file = file;
  }

  /** How many there and back follow each other from a plateau. */
  public int inARow(int from) {
    int count = 0;
    while (file.isPoint(from + 2 * count, 0.0)
        && file.isPoint(from + 2 * count + 1, 100.0)
        && file.isPoint(from + 2 * count + 2, 0.0)) {
      count++;
    }
    return count;
  }

  /**
   * The first so many there and back in a row, at or after a plateau.
   *
   * @param name what the strokes are called
   * @param wanted how many
   * @param tellAction whether they tell which way the unit goes
   */
  public Stretch find(String name, int wanted, boolean tellAction, int from) {
    int most = 0;
    for (int i = from; i < file.count(); i++) {
      int count = inARow(i);
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

  /** Strokes that no test took. */
  public TraceFinder.More more(String remedy) {
    return new TraceFinder.More(
        (i, free) -> isMove(i, 0.0, 100.0) || isMove(i, 100.0, 0.0),
        "full stroke",
        "full strokes",
        remedy);
  }

  private boolean isMove(int index, double from, double to) {
    return file.isPoint(index - 1, from) && file.isPoint(index, to);
  }
}
