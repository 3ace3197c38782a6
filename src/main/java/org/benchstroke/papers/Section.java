package org.benchstroke.papers;

import java.util.List;
import java.util.Optional;

/**
 * A part of a report under its own heading. Immutable.
 *
 * @param title the heading
 * @param blocks what stands there
 * @param onRequest whether it is closed on the screen until someone opens it, and is printed only
 *     then: what an engineer wants and most readers don't
 */
public record Section(String title, List<Block> blocks, boolean onRequest) {
  public Section {
    blocks = List.copyOf(blocks);
  }

  /** One that everybody sees. */
  public Section(String title, List<Block> blocks) {
    this(title, blocks, false);
  }

  /** The same, for those who ask for it. */
  Section askedFor() {
    return new Section(title, blocks, true);
  }

  /** One of a table; of a few words instead if it has no rows. */
  static Section of(String title, Block.Grid grid, Block.Paragraph without) {
    return new Section(title, List.of(grid.rows().isEmpty() ? without : grid));
  }

  /** One of a table; none if it has no rows. */
  static Optional<Section> of(String title, Block.Grid grid) {
    return Optional.of(new Section(title, List.of(grid))).filter(s -> !grid.rows().isEmpty());
  }
}
