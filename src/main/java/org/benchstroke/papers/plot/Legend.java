package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Shape.Anchor;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Face;

/** A legend above the plot, its entries flowing over as many rows as they need. */
final class Legend {
  private static final double ROW = 20.0;
  private static final double SAMPLE = 34.0;
  // a generous mean width of a letter at 13 px: the font may differ from machine to machine
  private static final double LETTER = 7.0;

  /** An entry's sample of 28 × 12 pixels with its left middle at (x, y). */
  interface Sample {
    List<Shape> at(double x, double y);
  }

  private final List<Shape> shapes = new ArrayList<>();
  private double nextX = Frame.LEFT;
  private int row;

  static Sample line(Stroke stroke) {
    return (x, y) -> List.of(new Shape.Line(x, y, x + 28.0, y, stroke));
  }

  static Sample area(Shape.Fill fill) {
    return (x, y) -> List.of(new Shape.Area(new Box(x, y - 6.0, 28.0, 12.0), fill));
  }

  Legend add(String text, Sample sample) {
    double wide = SAMPLE + text.length() * LETTER + 14.0;
    if (nextX > Frame.LEFT && nextX + wide > Frame.RIGHT) {
      nextX = Frame.LEFT;
      row++;
    }
    double y = row * ROW + ROW / 2;
    shapes.addAll(sample.at(nextX, y));
    shapes.add(new Shape.Text(text, nextX + SAMPLE, y + 4.5, Anchor.START, Face.PLAIN));
    nextX += wide;
    return this;
  }

  double height() {
    return shapes.isEmpty() ? 0.0 : (row + 1) * ROW;
  }

  List<Shape> shapes() {
    return shapes;
  }
}
