package org.benchstroke.report.plot;

/** The shape of a point: told apart by form and filling, so also in a grey print. */
public enum Marker {
  TRIANGLE_UP(true),
  TRIANGLE_DOWN(true),
  HOLLOW_TRIANGLE_UP(false),
  HOLLOW_TRIANGLE_DOWN(false);

  private final boolean filled;

  Marker(boolean filled) {
    this.filled = filled;
  }

  void draw(Svg svg, double x, double y, String colour) {
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
