package org.benchstroke.papers.sheets;

import java.util.List;

/**
 * A workshop sheet in words, as the template sets it. Immutable.
 *
 * @param frame what all papers have
 * @param headline what is said first
 * @param unit the unit's serial number and its type
 * @param panels the rest, in order
 */
public record SheetPage(Frame frame, Headline headline, List<String> unit, List<Panel> panels) {
  public SheetPage {
    unit = List.copyOf(unit);
    panels = List.copyOf(panels);
  }
}
