package org.benchstroke.papers.pdf;

import java.awt.Graphics2D;

/** A picture of lines and areas; the page says how large it is shown. Immutable. */
public interface Picture {
  /** Its width in units of its own. */
  double width();

  /** Its height in the same units. */
  double height();

  /**
   * Draws it, from (0, 0) to its width and height, y down.
   *
   * @param letters draws text as areas
   */
  void draw(Graphics2D on, Letters letters);
}
