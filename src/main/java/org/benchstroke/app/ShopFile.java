package org.benchstroke.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.PaperSize;

/**
 * What is the same for every run of a shop, stated once. Files are where they were named from: a
 * relative name begins at the shop file's folder. Immutable.
 *
 * @param name of the shop
 * @param address its lines, in order
 * @param logo a PNG or SVG file
 * @param operators who runs tests here; empty if nobody is listed, and then anybody may
 * @param supervisors who may allow a further attempt; likewise
 * @param bench the bench file
 * @param unitType the unit type file of a unit of which nothing else is said
 * @param procedure the procedure file, likewise
 * @param records the folder for records and reports; it need not be there yet
 * @param archive where the archive is: a file, or a {@code postgresql://} address, which may hold a
 *     password and is therefore not to be shown
 * @param paper the sheet that papers are set for
 * @param language that papers are written in
 */
public record ShopFile(
    String name,
    List<String> address,
    Optional<Path> logo,
    List<String> operators,
    List<String> supervisors,
    Optional<Path> bench,
    Optional<Path> unitType,
    Optional<Path> procedure,
    Optional<Path> records,
    Optional<String> archive,
    PaperSize paper,
    Language language) {
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

  /** Without the archive: its address may hold a password. */
  @Override
  public String toString() {
    return "shop file of " + name;
  }
}
