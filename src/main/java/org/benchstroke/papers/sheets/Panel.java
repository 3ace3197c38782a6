package org.benchstroke.papers.sheets;

import java.util.List;
import java.util.stream.Stream;

/**
 * A part of a paper under its own heading. Immutable.
 *
 * @param title the heading
 * @param parts what stands there
 */
public record Panel(String title, List<Part> parts) {
  private static final int MOST_COLUMNS = 8;
  private static final int MOST_ROWS = 24;

  public Panel {
    parts = List.copyOf(parts);
  }

  /** How it is set: a long one is broken over pages, one of many columns takes the whole width. */
  public String style() {
    boolean full = tables().anyMatch(t -> t.headings().size() > MOST_COLUMNS);
    boolean broken = tables().anyMatch(t -> t.rows().size() > MOST_ROWS);
    return (full ? " full" : "") + (broken ? " long" : "");
  }

  private Stream<Part.Table> tables() {
    return parts.stream().filter(Part.Table.class::isInstance).map(Part.Table.class::cast);
  }
}
