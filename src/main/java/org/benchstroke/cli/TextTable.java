package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.List;

/**
 * A table of texts that fits a width: columns are as wide as what stands in them, and where that is
 * too much the widest ones give way. Immutable.
 *
 * @param heads of the columns; one that begins with {@link #RIGHT} is of numbers
 * @param rows as many cells each
 */
record TextTable(List<String> heads, List<List<String>> rows) {
  /** What a terminal has at least. */
  static final int WIDTH = 80;

  private static final String RIGHT = ">";

  TextTable {
    heads = List.copyOf(heads);
    rows = rows.stream().map(List::copyOf).toList();
  }

  /** The head of a column of numbers. */
  static String right(String head) {
    return RIGHT + head;
  }

  void print(Shown out) {
    int[] widths = widths();
    out.println(line(heads.stream().map(TextTable::name).toList(), widths));
    rows.forEach(row -> out.println(line(row, widths)));
  }

  private static String name(String head) {
    return head.startsWith(RIGHT) ? head.substring(1) : head;
  }

  private int[] widths() {
    int[] widths = new int[heads.size()];
    for (int i = 0; i < widths.length; i++) {
      widths[i] = length(name(heads.get(i)));
      for (List<String> row : rows) {
        widths[i] = Math.max(widths[i], length(row.get(i)));
      }
    }
    for (int over = over(widths); over > 0; over = over(widths)) {
      int widest = 0;
      for (int i = 1; i < widths.length; i++) {
        widest = widths[i] > widths[widest] ? i : widest;
      }
      widths[widest]--;
    }
    return widths;
  }

  private static int over(int[] widths) {
    int all = widths.length - 1;
    for (int width : widths) {
      all += width;
    }
    return all - WIDTH;
  }

  private String line(List<String> cells, int[] widths) {
    List<String> fitted = new ArrayList<>();
    for (int i = 0; i < widths.length; i++) {
      fitted.add(fitted(cells.get(i), widths[i], heads.get(i).startsWith(RIGHT)));
    }
    return String.join(" ", fitted).stripTrailing();
  }

  private static int length(String text) {
    return text.codePointCount(0, text.length());
  }

  private static String fitted(String text, int width, boolean right) {
    int length = length(text);
    if (length > width) {
      return text.substring(0, text.offsetByCodePoints(0, width - 1)) + "…";
    }
    String blanks = " ".repeat(width - length);
    return right ? blanks + text : text + blanks;
  }
}
