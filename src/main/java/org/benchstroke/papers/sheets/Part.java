package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.List;

/** A piece of a paper, already in words; the template only sets it. Immutable. */
public sealed interface Part {

  /**
   * Names with their values, two beside each other where they are short.
   *
   * @param pairs in order
   */
  record Facts(List<Fact> pairs) implements Part {
    public Facts {
      pairs = List.copyOf(pairs);
    }

    /** One or two to a row. */
    public List<List<Fact>> rows() {
      List<List<Fact>> rows = new ArrayList<>();
      boolean open = false;
      for (Fact fact : pairs) {
        if (open && !fact.wide()) {
          List<Fact> last = rows.remove(rows.size() - 1);
          rows.add(List.of(last.get(0), fact));
          open = false;
        } else {
          rows.add(List.of(fact));
          open = !fact.wide();
        }
      }
      return rows;
    }
  }

  /**
   * A name with its value.
   *
   * @param name what it is
   * @param value in words, with unit
   * @param wide whether it needs a row of its own
   */
  record Fact(String name, String value, boolean wide) {
    static Fact of(String name, String value) {
      return new Fact(name, value, false);
    }

    static Fact wide(String name, String value) {
      return new Fact(name, value, true);
    }
  }

  /**
   * A table. Every row has as many cells as there are headings.
   *
   * @param style its name in the style sheet
   * @param headings one for each column
   * @param rows from the top
   */
  record Table(String style, List<Cell> headings, List<List<Cell>> rows) implements Part {
    public Table {
      headings = List.copyOf(headings);
      rows = rows.stream().map(List::copyOf).toList();
      for (List<Cell> row : rows) {
        if (row.size() != headings.size()) {
          throw new IllegalArgumentException("a row of a table misses a cell");
        }
      }
    }
  }

  /**
   * A cell.
   *
   * @param text what it says
   * @param note a second line in small print; may be empty
   * @param style its name in the style sheet
   */
  record Cell(String text, String note, String style) {
    static Cell text(String text) {
      return new Cell(text, "", "words");
    }

    static Cell number(String text) {
      return new Cell(text, "", "figure");
    }

    static Cell soft(String text) {
      return new Cell(text, "", "soft");
    }

    static Cell strong(String text) {
      return new Cell(text, "", "strong");
    }

    static Cell noted(String text, String note) {
      return new Cell(text, note, "words");
    }
  }

  /**
   * A sentence or more.
   *
   * @param words the words
   * @param style its name in the style sheet: "plain", "strong" or "fine"
   */
  record Text(String words, String style) implements Part {
    static Text plain(String words) {
      return new Text(words, "plain");
    }

    static Text strong(String words) {
      return new Text(words, "strong");
    }

    static Text fine(String words) {
      return new Text(words, "fine");
    }
  }
}
