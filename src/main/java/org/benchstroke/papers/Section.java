package org.benchstroke.papers;

import java.util.List;

/**
 * A part of a report under its own heading. Immutable.
 *
 * @param title the heading
 * @param blocks what stands there
 */
public record Section(String title, List<Block> blocks) {
  public Section {
    blocks = List.copyOf(blocks);
  }
}
