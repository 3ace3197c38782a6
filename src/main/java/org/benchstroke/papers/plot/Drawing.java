package org.benchstroke.papers.plot;

import java.util.List;

/**
 * A picture as data, for any canvas. Immutable.
 *
 * @param caption its words
 * @param width px
 * @param height px
 * @param shapes the lowest first
 */
public record Drawing(Caption caption, double width, double height, List<Shape> shapes) {
  public Drawing {
    shapes = List.copyOf(shapes);
  }
}
