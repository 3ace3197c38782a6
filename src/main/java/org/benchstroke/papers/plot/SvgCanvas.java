package org.benchstroke.papers.plot;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Point;

/**
 * Draws as SVG text. Numbers have two decimals at most and all text is escaped, so the same picture
 * is the same bytes on any machine; what SVG takes for granted is not written. For one thread.
 */
public final class SvgCanvas implements Canvas {
  private static final String FONT = "'Liberation Sans', Arial, Helvetica, sans-serif";

  private final StringBuilder out = new StringBuilder();
  private final String id;

  private SvgCanvas(String id) {
    this.id = id;
  }

  /** A picture as an SVG element that can stand in a page; its title is its name there. */
  public static String svg(Drawing drawing) {
    Caption caption = drawing.caption();
    SvgCanvas canvas = new SvgCanvas(caption.id());
    canvas.open("svg", "xmlns", "http://www.w3.org/2000/svg", "role", "img");
    canvas.more("aria-labelledby", canvas.id + "-title " + canvas.id + "-desc");
    canvas.more("viewBox", "0 0 " + number(drawing.width()) + " " + number(drawing.height()));
    canvas.more("width", drawing.width(), "height", drawing.height());
    canvas.more("font-family", FONT, "font-size", 13, "fill", colour(Ink.BLACK));
    canvas.out.append('>');
    canvas.open("title", "id", canvas.id + "-title").content("title", caption.title());
    canvas.open("desc", "id", canvas.id + "-desc").content("desc", caption.description());
    canvas.hatching();
    drawing.shapes().forEach(shape -> shape.on(canvas));
    canvas.close("svg");
    return canvas.out.toString();
  }

  private void hatching() {
    open("defs").out.append('>');
    open("pattern", "id", id + "-hatch", "width", 6, "height", 6);
    more("patternUnits", "userSpaceOnUse", "patternTransform", "rotate(45)").out.append('>');
    open("rect", "width", 6, "height", 6, "fill", colour(Ink.SOFT), "fill-opacity", 0.08).end();
    open("line", "x1", 0, "y1", 0, "x2", 0, "y2", 6, "stroke", colour(Ink.SOFT));
    more("stroke-width", 1.6, "stroke-opacity", 0.45).end();
    close("pattern");
    close("defs");
  }

  @Override
  public void line(Shape.Line line) {
    open("line", "x1", line.x1(), "y1", line.y1(), "x2", line.x2(), "y2", line.y2());
    stroked(line.stroke()).end();
  }

  @Override
  public void curve(Shape.Curve curve) {
    // a line of no length with round ends is a dot
    String path = path(curve.points()) + (curve.points().size() == 1 ? "h0" : "");
    open("path", "d", path, "fill", "none");
    stroked(curve.stroke()).more("stroke-linejoin", "round");
    if (curve.stroke().dashes().isEmpty()) {
      more("stroke-linecap", "round");
    }
    end();
  }

  private SvgCanvas stroked(Stroke stroke) {
    more("stroke", colour(stroke.ink()));
    if (stroke.width() != 1.0) {
      more("stroke-width", stroke.width());
    }
    if (!stroke.dashes().isEmpty()) {
      more(
          "stroke-dasharray",
          stroke.dashes().stream().map(SvgCanvas::number).collect(Collectors.joining(" ")));
    }
    return this;
  }

  @Override
  public void area(Shape.Area area) {
    box(area.box());
    switch (area.fill()) {
      case HATCHED -> more("fill", "url(#" + id + "-hatch)");
      case GREY -> more("fill", colour(Ink.BLACK), "fill-opacity", 0.28);
      case NONE -> more("fill", "none", "stroke", colour(Ink.SOFT));
    }
    end();
  }

  private void box(Box box) {
    open("rect", "x", box.left(), "y", box.top(), "width", box.width(), "height", box.height());
  }

  @Override
  public void mark(Shape.Mark mark) {
    Marker marker = mark.marker();
    List<Point> corners = marker.corners(mark.x(), mark.y());
    if (corners.isEmpty()) {
      open("circle", "cx", mark.x(), "cy", mark.y(), "r", Marker.RADIUS);
    } else {
      open("path", "d", path(corners) + "Z");
    }
    more("fill", colour(marker.filled() ? mark.ink() : Ink.PAPER));
    if (marker.outline() > 0.0) {
      more("stroke", colour(mark.ink()), "stroke-width", marker.outline());
      more("stroke-linejoin", "round");
    }
    end();
  }

  @Override
  public void text(Shape.Text text) {
    open("text", "x", text.x(), "y", text.y());
    if (text.anchor() != Shape.Anchor.START) {
      more("text-anchor", text.anchor().name().toLowerCase(Locale.ROOT));
    }
    switch (text.face()) {
      case PLAIN -> {}
      case BOLD -> more("font-weight", "bold");
      case ITALIC -> more("font-style", "italic");
      case UPWARD ->
          more("transform", "rotate(-90 " + number(text.x()) + " " + number(text.y()) + ")");
    }
    content("text", text.words());
  }

  @Override
  public void clipped(Shape.Clipped clipped) {
    open("clipPath", "id", id + "-area").out.append('>');
    box(clipped.box());
    end();
    close("clipPath");
    open("g", "clip-path", "url(#" + id + "-area)").out.append('>');
    clipped.shapes().forEach(shape -> shape.on(this));
    close("g");
  }

  private static String path(List<Point> points) {
    return points.stream()
        .map(p -> number(p.x()) + " " + number(p.y()))
        .collect(Collectors.joining("L", "M", ""));
  }

  private static String colour(Ink ink) {
    return String.format(Locale.ROOT, "#%06x", ink.rgb());
  }

  /** Begins an element; attributes are name, value, name, value … with strings or numbers. */
  private SvgCanvas open(String element, Object... attributes) {
    out.append('<').append(element);
    return more(attributes);
  }

  private SvgCanvas more(Object... attributes) {
    for (int i = 0; i < attributes.length; i += 2) {
      out.append(' ').append(attributes[i]).append("=\"");
      Object value = attributes[i + 1];
      out.append(value instanceof Number n ? number(n.doubleValue()) : escape(value.toString()));
      out.append('"');
    }
    return this;
  }

  /** Ends an element without content. */
  private void end() {
    out.append("/>\n");
  }

  /** Ends an element that holds nothing but text. */
  private void content(String element, String text) {
    out.append('>').append(escape(Numbers.minusSigns(text)));
    close(element);
  }

  private void close(String element) {
    out.append("</").append(element).append(">\n");
  }

  /** A coordinate: two decimals at most, without the zeros at its end. */
  static String number(double value) {
    return Numbers.upTo(value, 2);
  }

  /** Escapes for element content and quoted attributes; leaves out what XML 1.0 does not allow. */
  static String escape(String text) {
    StringBuilder safe = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '&' -> safe.append("&amp;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
              }
            });
    return safe.toString();
  }

  /** XML 1.0 (fifth edition) 2.2, production Char. */
  private static boolean allowed(int c) {
    return c == '\t'
        || c == '\n'
        || c == '\r'
        || (c >= 0x20 && c <= 0xD7FF)
        || (c >= 0xE000 && c <= 0xFFFD)
        || c >= 0x10000;
  }
}
