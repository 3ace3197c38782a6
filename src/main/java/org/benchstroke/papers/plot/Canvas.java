package org.benchstroke.papers.plot;

/** What pictures are drawn on. Whatever is drawn later covers what is below it. For one thread. */
public interface Canvas {
  void line(Shape.Line line);

  void curve(Shape.Curve curve);

  void area(Shape.Area area);

  void mark(Shape.Mark mark);

  void text(Shape.Text text);

  void clipped(Shape.Clipped clipped);
}
