package org.benchstroke.papers;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * Who issues a paper. Immutable.
 *
 * @param name of the shop
 * @param address its lines, in order
 * @param logo a PNG or SVG file, if there is one
 */
public record Letterhead(String name, List<String> address, Optional<Path> logo) {
  public Letterhead {
    address = List.copyOf(address);
  }
}
