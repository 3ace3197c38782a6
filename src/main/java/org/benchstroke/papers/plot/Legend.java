package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;

/** A legend above the plot, its entries flowing over as many rows as they need. */
final class Legend {
  private static final double ROW = 20.0;
  private static final double SAMPLE = 34.0;
  // a generous mean width of a letter at 13 px: the font may differ from machine to machine
  private static final double LETTER = 7.0;

  /** Draws an entry's sample of 30 × 12 pixels with its left middle at (x, y). */
  interface Sample {
    void draw(Svg svg, double x, double y);
  }

  private record Entry(String text, Sample sample, double x, int row) {}

  private final List<Entry> entries = new ArrayList<>();
  private final double left;
  private final double right;
  private double nextX;
  private int row;

  Legend(double left, double right) {
    this.left = left;
    this.right = right;
    this.nextX = left;
  }

  Legend add(String text, Sample sample) {
    double wide = SAMPLE + text.length() * LETTER + 14.0;
    if (nextX > left && nextX + wide > right) {
      nextX = left;
      row++;
    }
    entries.add(new Entry(text, sample, nextX, row));
    nextX += wide;
    return this;
  }

  double height() {
    return entries.isEmpty() ? 0.0 : (row + 1) * ROW;
  }

  void draw(Svg svg, double top) {
    for (Entry entry : entries) {
      double y = top + entry.row * ROW + ROW / 2;
      entry.sample.draw(svg, entry.x, y);
      svg.text("text", entry.text, "x", entry.x + SAMPLE, "y", y + 4.5);
    }
  }
}
