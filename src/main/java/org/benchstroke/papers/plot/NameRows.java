package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Shape.Anchor;

/** Names above an area, in as many rows as keep them apart. */
final class NameRows {
  private final List<Double> ends = new ArrayList<>();
  private final double top;
  private final double height;

  /**
   * Rows without names.
   *
   * @param top the upper edge of the first, px
   * @param height of a row, px
   */
  NameRows(double top, double height) {
    this.top = top;
    this.height = height;
  }

  /** The first of some rows that is free from a place on; the last of them if none is. */
  int free(double start, int first, int last) {
    int row = first;
    while (row < last && !isFree(row, start)) {
      row++;
    }
    return row;
  }

  boolean isFree(int row, double start) {
    return row >= ends.size() || ends.get(row) <= start;
  }

  /** Puts a name into a row, which is free again from {@code end} on. */
  Shape.Text put(int row, String words, double start, double end, Shape.Face face) {
    while (ends.size() <= row) {
      ends.add(0.0);
    }
    ends.set(row, end);
    return new Shape.Text(words, start, top + (row + 1) * height - 3.0, Anchor.START, face);
  }

  int count() {
    return ends.size();
  }

  double bottom() {
    return top + count() * height;
  }
}
