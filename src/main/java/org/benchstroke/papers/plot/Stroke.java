package org.benchstroke.papers.plot;

import java.util.List;

/**
 * How a line is drawn: told apart by its dashes as well as its colour. Immutable.
 *
 * @param ink its colour
 * @param width in pixels of the picture
 * @param dashes lengths of dashes and of the spaces between them, in turn, px; empty for a solid
 *     line
 */
public record Stroke(Ink ink, double width, List<Double> dashes) {
  public static final Stroke UP = of(Ink.BLUE, 1.6);
  public static final Stroke DOWN = of(Ink.RUST, 1.6, 7.0, 3.0);
  public static final Stroke STEM_UP = of(Ink.BLUE, 1.3, 2.0, 3.0);
  public static final Stroke STEM_DOWN = of(Ink.RUST, 1.3, 8.0, 3.0, 2.0, 3.0);
  public static final Stroke IDEAL = of(Ink.GREY, 1.2, 1.0, 3.0);
  public static final Stroke LIMIT = of(Ink.BLACK, 1.8);
  public static final Stroke SETPOINT = of(Ink.RUST, 1.4, 5.0, 3.0);
  public static final Stroke POSITION = of(Ink.BLUE, 1.5);
  public static final Stroke MODEL = of(Ink.BLACK, 1.6, 1.0, 3.0);
  public static final Stroke ZERO = of(Ink.SOFT, 1.0);

  static final Stroke GRID = of(Ink.PALE, 1.0);
  static final Stroke TEST = of(Ink.BLACK, 0.8, 1.0, 2.0);
  static final Stroke MOMENT = of(Ink.BLACK, 0.9, 2.0, 2.0);

  public Stroke {
    dashes = List.copyOf(dashes);
  }

  private static Stroke of(Ink ink, double width, Double... dashes) {
    return new Stroke(ink, width, List.of(dashes));
  }

  /** Of an error bar beside such a line. */
  Stroke bar() {
    return of(ink, 1.2);
  }
}
