package org.benchstroke.papers.pdf;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.benchstroke.papers.plot.Canvas;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.Ink;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.Shape.Anchor;
import org.benchstroke.papers.plot.Shape.Area;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Clipped;
import org.benchstroke.papers.plot.Shape.Curve;
import org.benchstroke.papers.plot.Shape.Face;
import org.benchstroke.papers.plot.Shape.Line;
import org.benchstroke.papers.plot.Shape.Mark;
import org.benchstroke.papers.plot.Shape.Point;
import org.benchstroke.papers.plot.Shape.Text;
import org.benchstroke.papers.plot.Stroke;

/**
 * A plot, drawn as it is on a screen.
 *
 * @param drawing the plot
 */
public record PlotPicture(Drawing drawing) implements Picture {
  private static final double EM = 13.0;
  private static final double SLANT = -0.21;
  private static final double HATCH = 8.0;

  @Override
  public double width() {
    return drawing.width();
  }

  @Override
  public double height() {
    return drawing.height();
  }

  @Override
  public void draw(Graphics2D on, Letters letters) {
    PageCanvas canvas = new PageCanvas(on, letters);
    drawing.shapes().forEach(shape -> shape.on(canvas));
  }

  /** Without any transparency: a grey mixed with paper is another grey. */
  private record PageCanvas(Graphics2D on, Letters letters) implements Canvas {
    @Override
    public void line(Line line) {
      stroke(
          new Line2D.Double(line.x1(), line.y1(), line.x2(), line.y2()),
          line.stroke(),
          BasicStroke.CAP_BUTT);
    }

    @Override
    public void curve(Curve curve) {
      boolean solid = curve.stroke().dashes().isEmpty();
      stroke(
          path(curve.points(), false),
          curve.stroke(),
          solid ? BasicStroke.CAP_ROUND : BasicStroke.CAP_BUTT);
    }

    private void stroke(Shape shape, Stroke stroke, int cap) {
      float width = (float) stroke.width();
      on.setColor(colour(stroke.ink()));
      on.setStroke(
          stroke.dashes().isEmpty()
              ? new BasicStroke(width, cap, BasicStroke.JOIN_ROUND)
              : new BasicStroke(
                  width, cap, BasicStroke.JOIN_ROUND, 10f, dashes(stroke.dashes()), 0f));
      on.draw(shape);
    }

    private static float[] dashes(List<Double> lengths) {
      float[] dashes = new float[lengths.size()];
      for (int i = 0; i < dashes.length; i++) {
        dashes[i] = lengths.get(i).floatValue();
      }
      return dashes;
    }

    @Override
    public void area(Area area) {
      Rectangle2D box = rectangle(area.box());
      switch (area.fill()) {
        case HATCHED -> hatch(box);
        case GREY -> {
          on.setColor(new Color(0xc0c1c3));
          on.fill(box);
        }
        case NONE -> {
          on.setColor(colour(Ink.SOFT));
          on.setStroke(new BasicStroke(1f));
          on.draw(box);
        }
      }
    }

    private void hatch(Rectangle2D box) {
      on.setColor(new Color(0xf1f1f2));
      on.fill(box);
      on.setColor(new Color(0xafb3b8));
      on.setStroke(new BasicStroke(1.2f));
      Shape before = on.getClip();
      on.clip(box);
      for (double x = box.getX() - box.getHeight(); x < box.getMaxX(); x += HATCH) {
        on.draw(new Line2D.Double(x, box.getY(), x + box.getHeight(), box.getMaxY()));
      }
      on.setClip(before);
    }

    @Override
    public void mark(Mark mark) {
      Marker marker = mark.marker();
      List<Point> corners = marker.corners(mark.x(), mark.y());
      Shape shape =
          corners.isEmpty()
              ? new Ellipse2D.Double(
                  mark.x() - Marker.RADIUS,
                  mark.y() - Marker.RADIUS,
                  2 * Marker.RADIUS,
                  2 * Marker.RADIUS)
              : path(corners, true);
      on.setColor(colour(marker.filled() ? mark.ink() : Ink.PAPER));
      on.fill(shape);
      if (marker.outline() > 0.0) {
        on.setColor(colour(mark.ink()));
        on.setStroke(
            new BasicStroke(
                (float) marker.outline(), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND));
        on.draw(shape);
      }
    }

    @Override
    public void text(Text text) {
      String words = text.words().replaceFirst("^-(?=[0-9.])", "\u2212");
      boolean bold = text.face() == Face.BOLD;
      double em = text.face() == Face.UPWARD || bold ? EM * 0.92 : EM * 0.88;
      double width = letters.width(words, em, bold);
      double from =
          text.anchor() == Anchor.START ? 0.0 : text.anchor() == Anchor.END ? -width : -width / 2;
      AffineTransform place = AffineTransform.getTranslateInstance(text.x(), text.y());
      if (text.face() == Face.UPWARD) {
        place.rotate(-Math.PI / 2);
      }
      place.translate(from, 0.0);
      if (text.face() == Face.ITALIC) {
        place.shear(SLANT, 0.0);
      }
      on.setColor(colour(Ink.BLACK));
      on.fill(place.createTransformedShape(letters.outline(words, em, bold)));
    }

    @Override
    public void clipped(Clipped clipped) {
      Shape before = on.getClip();
      on.clip(rectangle(clipped.box()));
      clipped.shapes().forEach(shape -> shape.on(this));
      on.setClip(before);
    }

    private static Rectangle2D rectangle(Box box) {
      return new Rectangle2D.Double(box.left(), box.top(), box.width(), box.height());
    }

    private static Path2D path(List<Point> points, boolean closed) {
      Path2D path = new Path2D.Double();
      path.moveTo(points.get(0).x(), points.get(0).y());
      points.stream().skip(1).forEach(p -> path.lineTo(p.x(), p.y()));
      if (points.size() == 1) {
        path.lineTo(points.get(0).x(), points.get(0).y());
      }
      if (closed) {
        path.closePath();
      }
      return path;
    }

    private static Color colour(Ink ink) {
      return new Color(ink.rgb());
    }
  }
}
