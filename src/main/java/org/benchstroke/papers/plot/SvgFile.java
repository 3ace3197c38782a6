package org.benchstroke.papers.plot;

import java.util.List;

/** Pictures in a file of their own, one below the other. Stateless. */
public final class SvgFile {
  /** By what a file of ours is known. */
  public static final String MARK = "<!-- a picture by benchstroke -->";

  private static final double GAP = 12.0;

  private SvgFile() {}

  /**
   * The text of the file; to be stored as UTF-8.
   *
   * @param drawings at least one, each with an id of its own
   */
  public static String text(List<Drawing> drawings) {
    double width = drawings.stream().mapToDouble(Drawing::width).max().orElseThrow();
    StringBuilder inner = new StringBuilder();
    double top = 0.0;
    for (Drawing drawing : drawings) {
      inner.append("<g transform=\"translate(0 ").append(SvgCanvas.number(top)).append(")\">\n");
      inner.append(SvgCanvas.svg(drawing)).append("</g>\n");
      top += drawing.height() + GAP;
    }
    String size = SvgCanvas.number(width) + "\" height=\"" + SvgCanvas.number(top - GAP);
    String box = "0 0 " + SvgCanvas.number(width) + " " + SvgCanvas.number(top - GAP);
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        + MARK
        + "\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\""
        + size
        + "\" viewBox=\""
        + box
        + "\">\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n"
        + inner
        + "</svg>\n";
  }
}
