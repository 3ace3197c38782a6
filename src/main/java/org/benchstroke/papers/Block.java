package org.benchstroke.papers;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.plot.Drawing;

/** A piece of a report, already in words; the template only sets it. Immutable. */
public sealed interface Block {

  /**
   * A sentence or two.
   *
   * @param text the words
   * @param strong whether it must be seen
   */
  record Paragraph(String text, boolean strong) implements Block {
    Paragraph(String text) {
      this(text, false);
    }
  }

  /**
   * Sentences, most important first.
   *
   * @param items the sentences
   */
  record Bullets(List<String> items) implements Block {
    public Bullets {
      items = List.copyOf(items);
    }
  }

  /**
   * Names with their values.
   *
   * @param pairs in order
   */
  record Facts(List<Fact> pairs) implements Block {
    private static final int SHORT = 90;
    private static final int FEW = 6;

    public Facts {
      pairs = List.copyOf(pairs);
    }

    /** Two in a row, but for those that hold sentences. */
    public String style() {
      boolean sentences = pairs.stream().anyMatch(pair -> pair.value().length() > SHORT);
      return sentences && pairs.size() <= FEW ? "long" : "pairs";
    }
  }

  /**
   * A name with its value.
   *
   * @param name what it is
   * @param value in words, with unit
   */
  record Fact(String name, String value) {}

  /**
   * A table. Every row has as many cells as there are headings.
   *
   * @param caption what it shows
   * @param headings one for each column
   * @param rows from the top
   */
  record Grid(String caption, List<String> headings, List<List<Cell>> rows) implements Block {
    public Grid {
      headings = List.copyOf(headings);
      rows = rows.stream().map(List::copyOf).toList();
      for (List<Cell> row : rows) {
        if (row.size() != headings.size()) {
          throw new IllegalArgumentException("a row of \"" + caption + "\" misses a cell");
        }
      }
    }

    /**
     * How it is set: a short one is moved to the next page whole rather than broken, one of many
     * columns is not squeezed on a narrow screen.
     */
    public String style() {
      String length = rows.size() <= 12 ? "short" : "long";
      return headings.size() > 4 ? length + " many" : length;
    }

    /** The heading of a column, set like the numbers below it. */
    public Cell heading(int column) {
      boolean numbers = !rows.isEmpty() && rows.get(0).get(column).kind() == Cell.Kind.NUMBER;
      return numbers ? Cell.number(headings.get(column)) : Cell.text(headings.get(column));
    }
  }

  /**
   * A cell of a table.
   *
   * @param text what it says
   * @param note a second line in small print; may be empty
   * @param kind how it is set
   * @param word a judgement, shown with its shape before the text
   */
  record Cell(String text, String note, Kind kind, Optional<Word> word) {
    /** How a cell is set. */
    public enum Kind {
      TEXT("words"),
      NUMBER("figure"),
      NAME("name"),
      FINE("fine"),
      ALARM("alarm");

      private final String style;

      Kind(String style) {
        this.style = style;
      }

      /** Its name in the style sheet. */
      public String style() {
        return style;
      }
    }

    static Cell text(String text) {
      return new Cell(text, "", Kind.TEXT, Optional.empty());
    }

    static Cell name(String text, String note) {
      return new Cell(text, note, Kind.NAME, Optional.empty());
    }

    static Cell fine(String text) {
      return new Cell(text, "", Kind.FINE, Optional.empty());
    }

    static Cell noted(String text, String note) {
      return new Cell(text, note, Kind.TEXT, Optional.empty());
    }

    static Cell number(String text) {
      return new Cell(text, "", Kind.NUMBER, Optional.empty());
    }

    static Cell number(String text, String note) {
      return new Cell(text, note, Kind.NUMBER, Optional.empty());
    }

    static Cell alarm(String text) {
      return new Cell(text, "", Kind.ALARM, Optional.empty());
    }

    static Cell word(Optional<Word> word) {
      return new Cell(Figures.word(word), "", Kind.NAME, word);
    }
  }

  /**
   * A picture.
   *
   * @param caption the words below it
   * @param drawing what is seen
   */
  record Picture(String caption, Drawing drawing) implements Block {}

  /**
   * Small pictures side by side, two in a row where there is room.
   *
   * @param drawings in order; their titles stand within them
   */
  record Panels(List<Drawing> drawings) implements Block {
    public Panels {
      drawings = List.copyOf(drawings);
    }

    /** Two and two: a row is not broken between pages. */
    public List<List<Drawing>> rows() {
      return IntStream.range(0, (drawings.size() + 1) / 2)
          .mapToObj(i -> drawings.subList(2 * i, Math.min(2 * i + 2, drawings.size())))
          .toList();
    }
  }

  /**
   * What opens on demand.
   *
   * @param summary a line that says all that most want to know
   * @param open whether it is open from the beginning, and so in print
   * @param grid what is inside
   * @param closing the words below the table
   */
  record Details(String summary, boolean open, Grid grid, String closing) implements Block {}
}
