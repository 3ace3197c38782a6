package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Numbers;

/** Pictures in a file of their own, one below the other. Stateless. */
public final class SvgFile {
  /** By what a file of ours is known. */
  public static final String MARK = "<!-- a picture by benchstroke -->";

  private static final double GAP = 12.0;
  private static final double LINE = 18.0;

  /** So many letters of a title fit on a line beside the usual width. */
  private static final int LETTERS = 95;

  private SvgFile() {}

  /**
   * The text of the file; to be stored as UTF-8. No page stands around it, so each picture has its
   * title above it.
   *
   * @param drawings at least one, each with an id of its own
   */
  public static String text(List<Drawing> drawings) {
    double width = drawings.stream().mapToDouble(Drawing::width).max().orElseThrow();
    StringBuilder inner = new StringBuilder();
    double top = 0.0;
    for (Drawing drawing : drawings) {
      for (String line : lines(drawing.caption().title())) {
        top += LINE;
        inner.append(title(line, top));
      }
      top += GAP;
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

  private static String title(String line, double bottom) {
    return "<text x=\"8\" y=\""
        + SvgCanvas.number(bottom - 4.0)
        + "\" font-family=\"'Liberation Sans', Arial, Helvetica, sans-serif\" font-size=\"13\""
        + " font-weight=\"bold\">"
        + SvgCanvas.escape(Numbers.minusSigns(line))
        + "</text>\n";
  }

  /** Broken at blanks; a word that is longer than a line stays whole. */
  private static List<String> lines(String title) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : title.split(" ", -1)) {
      if (line.length() > 0 && line.length() + word.length() >= LETTERS) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() > 0 ? " " : "").append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
