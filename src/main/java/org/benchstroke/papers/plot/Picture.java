package org.benchstroke.papers.plot;

/** What all plots share: the size, the outer element and its words for those who can't see it. */
final class Picture {
  static final double WIDTH = 760.0;
  static final double LEFT = 64.0;
  static final double RIGHT = WIDTH - 18.0;

  private Picture() {}

  /**
   * Opens the picture.
   *
   * @param id unique within the page
   * @param title what it shows
   * @param description what it tells, in sentences
   */
  static Svg begin(String id, String title, String description, double height) {
    return begin(id, title, description, WIDTH, height);
  }

  /** Likewise, of another width. */
  static Svg begin(String id, String title, String description, double width, double height) {
    Svg svg = new Svg();
    svg.open(
        "svg",
        "xmlns",
        "http://www.w3.org/2000/svg",
        "role",
        "img",
        "aria-labelledby",
        id + "-title " + id + "-desc",
        "viewBox",
        "0 0 " + Svg.number(width) + " " + Svg.number(height),
        "width",
        width,
        "height",
        height,
        "font-family",
        Svg.FONT,
        "font-size",
        13,
        "fill",
        Stroke.INK);
    svg.text("title", title, "id", id + "-title");
    svg.text("desc", description, "id", id + "-desc");
    return svg;
  }

  /** A hatching that stays visible where colours don't. */
  static void hatch(Svg svg, String id, String colour) {
    svg.open("defs");
    svg.open(
        "pattern",
        "id",
        id,
        "width",
        6,
        "height",
        6,
        "patternUnits",
        "userSpaceOnUse",
        "patternTransform",
        "rotate(45)");
    svg.shape("rect", "width", 6, "height", 6, "fill", colour, "fill-opacity", "0.08");
    svg.shape(
        "line",
        "x1",
        0,
        "y1",
        0,
        "x2",
        0,
        "y2",
        6,
        "stroke",
        colour,
        "stroke-width",
        1.6,
        "stroke-opacity",
        "0.45");
    svg.close("pattern").close("defs");
  }

  static String finish(Svg svg) {
    return svg.close("svg").toString();
  }
}
