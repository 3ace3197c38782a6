package org.benchstroke.papers.sheets;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.pdf.Letters;
import org.benchstroke.papers.pdf.Picture;

/**
 * The shape of a verdict: round passes, square fails, full is certain, broken is conditional; a
 * lozenge is neither.
 *
 * @param word the verdict
 */
record MarkPicture(Word word) implements Picture {
  private static final Color INK = new Color(0x1b1f24);
  private static final float[] BROKEN = {5f, 2.85f};

  @Override
  public double width() {
    return 24.0;
  }

  @Override
  public double height() {
    return 24.0;
  }

  @Override
  public void draw(Graphics2D on, Letters letters) {
    on.setColor(INK);
    switch (word) {
      case PASS -> {
        on.fill(new Ellipse2D.Double(0.5, 0.5, 23, 23));
        stroke(on, Color.WHITE, 2.6f, tick());
      }
      case CONDITIONAL_PASS -> {
        broken(on, new Ellipse2D.Double(2, 2, 20, 20));
        stroke(on, INK, 2.6f, tick());
      }
      case CONDITIONAL_FAIL -> {
        broken(on, new Rectangle2D.Double(2, 2, 20, 20));
        stroke(on, INK, 2.6f, cross());
      }
      case FAIL -> {
        on.fill(new Rectangle2D.Double(1, 1, 22, 22));
        stroke(on, Color.WHITE, 2.6f, cross());
      }
      case NO_RESULT -> {
        stroke(on, INK, 1.8f, path(true, 12, 1.5, 22.5, 12, 12, 22.5, 1.5, 12));
        stroke(on, INK, 2.6f, path(false, 7.5, 12, 16.5, 12));
      }
    }
  }

  private static Path2D tick() {
    return path(false, 6.8, 12.6, 10.6, 16.4, 17.6, 8.2);
  }

  private static Path2D cross() {
    Path2D cross = path(false, 7, 7, 17, 17);
    cross.append(path(false, 17, 7, 7, 17), false);
    return cross;
  }

  private static void broken(Graphics2D on, java.awt.Shape shape) {
    on.setStroke(
        new BasicStroke(2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, BROKEN, 0f));
    on.draw(shape);
  }

  private static void stroke(Graphics2D on, Color colour, float width, Path2D path) {
    on.setColor(colour);
    on.setStroke(new BasicStroke(width));
    on.draw(path);
  }

  private static Path2D path(boolean closed, double... xy) {
    Path2D path = new Path2D.Double();
    path.moveTo(xy[0], xy[1]);
    for (int i = 2; i < xy.length; i += 2) {
      path.lineTo(xy[i], xy[i + 1]);
    }
    if (closed) {
      path.closePath();
    }
    return path;
  }
}
