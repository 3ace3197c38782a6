package org.benchstroke.papers.plot;

/** The shape of a point: told apart by form and filling, so also in a grey print. */
public enum Marker {
  TRIANGLE_UP(true),
  TRIANGLE_DOWN(true),
  HOLLOW_TRIANGLE_UP(false),
  HOLLOW_TRIANGLE_DOWN(false),
  RING(false),
  SQUARE(true);

  private final boolean filled;

  Marker(boolean filled) {
    this.filled = filled;
  }

  void draw(Svg svg, double x, double y, String colour) {
    switch (this) {
      case RING ->
          svg.shape(
              "circle",
              "cx",
              x,
              "cy",
              y,
              "r",
              3.6,
              "fill",
              "#ffffff",
              "stroke",
              colour,
              "stroke-width",
              1.4);
      case SQUARE ->
          svg.shape(
              "rect", "x", x - 3.8, "y", y - 3.8, "width", 7.6, "height", 7.6, "fill", colour);
      default -> triangle(svg, x, y, colour);
    }
  }

  private void triangle(Svg svg, double x, double y, String colour) {
    double tip = this == TRIANGLE_UP || this == HOLLOW_TRIANGLE_UP ? -6.0 : 6.0;
    String path =
        "M"
            + Svg.number(x)
            + " "
            + Svg.number(y + tip)
            + "L"
            + Svg.number(x + 5.5)
            + " "
            + Svg.number(y - tip * 0.7)
            + "L"
            + Svg.number(x - 5.5)
            + " "
            + Svg.number(y - tip * 0.7)
            + "Z";
    svg.shape(
        "path",
        "d",
        path,
        "fill",
        filled ? colour : "#ffffff",
        "stroke",
        colour,
        "stroke-width",
        1.5,
        "stroke-linejoin",
        "round");
  }
}
