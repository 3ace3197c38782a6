package org.benchstroke.papers.plot;

/**
 * How a line is drawn: told apart by its dashes as well as its colour.
 *
 * @param colour a CSS colour
 * @param width in pixels of the picture
 * @param dashes an SVG dash pattern; empty for a solid line
 */
public record Stroke(String colour, double width, String dashes) {
  /** Text and axes. */
  public static final String INK = "#1b1f24";

  /** Secondary text. */
  public static final String SOFT = "#4d555e";

  static final String GRID = "#d9dde2";

  public static final Stroke UP = new Stroke("#1d4f91", 1.6, "");
  public static final Stroke DOWN = new Stroke("#a3470b", 1.6, "7 3");
  public static final Stroke STEM_UP = new Stroke("#1d4f91", 1.3, "2 3");
  public static final Stroke STEM_DOWN = new Stroke("#a3470b", 1.3, "8 3 2 3");
  public static final Stroke IDEAL = new Stroke("#7a828b", 1.2, "1 3");
  public static final Stroke LIMIT = new Stroke(INK, 1.8, "");
  public static final Stroke SETPOINT = new Stroke("#a3470b", 1.4, "5 3");
  public static final Stroke POSITION = new Stroke("#1d4f91", 1.5, "");

  public static final Stroke MODEL = new Stroke(INK, 1.6, "1 3");

  void line(Svg svg, double x1, double y1, double x2, double y2) {
    svg.shape(
        "line",
        "x1",
        x1,
        "y1",
        y1,
        "x2",
        x2,
        "y2",
        y2,
        "stroke",
        colour,
        "stroke-width",
        width,
        "stroke-dasharray",
        dashes.isEmpty() ? "none" : dashes);
  }

  void path(Svg svg, String d) {
    svg.shape(
        "path",
        "d",
        d,
        "fill",
        "none",
        "stroke",
        colour,
        "stroke-width",
        width,
        "stroke-linejoin",
        "round",
        "stroke-linecap",
        dashes.isEmpty() ? "round" : "butt",
        "stroke-dasharray",
        dashes.isEmpty() ? "none" : dashes);
  }
}
