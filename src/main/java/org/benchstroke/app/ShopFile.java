package org.benchstroke.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.papers.Letterhead;

/**
 * What is the same for every run of a shop, stated once. Files are where they were named from: a
 * relative name begins at the shop file's folder. Immutable.
 *
 * @param path where it is
 * @param name of the shop
 * @param address its lines, in order
 * @param logo a PNG or SVG file
 * @param operators who runs tests here; empty if nobody is listed, and then anybody may
 * @param supervisors who may allow a further attempt; likewise
 * @param stated what a run or a paper takes unless it is told otherwise
 */
public record ShopFile(
    Path path,
    String name,
    List<String> address,
    Optional<Path> logo,
    List<String> operators,
    List<String> supervisors,
    Stated stated) {
  public ShopFile {
    address = List.copyOf(address);
    operators = List.copyOf(operators);
    supervisors = List.copyOf(supervisors);
  }

  /** Who issues its papers. */
  public Letterhead letterhead() {
    return new Letterhead(name, address, logo);
  }

  /** Whether somebody runs tests here, by the list; without one everybody does. */
  public boolean mayTest(String operator) {
    return allows(operators, operator);
  }

  /** Whether somebody may allow a further attempt, by the list; without one everybody may. */
  public boolean maySupervise(String supervisor) {
    return allows(supervisors, supervisor);
  }

  private static boolean allows(List<String> names, String name) {
    return names.isEmpty() || names.stream().anyMatch(n -> n.equalsIgnoreCase(name.strip()));
  }

  /** What it says of a setting; of the operator only if there is no choice. */
  public Optional<String> value(Setting setting) {
    if (setting != Setting.OPERATOR) {
      return stated.value(setting);
    }
    return operators.size() == 1 ? Optional.of(operators.get(0)) : Optional.empty();
  }

  /** Without the archive: its address may hold a password. */
  @Override
  public String toString() {
    return "shop file of " + name;
  }
}
