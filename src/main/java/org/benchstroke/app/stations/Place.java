package org.benchstroke.app.stations;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.benchstroke.app.RunRequest;
import org.benchstroke.app.ShopFile;
import org.benchstroke.archive.ArchivePlace;

/**
 * What a station is made of, and what is the same for every job on it. Immutable.
 *
 * @param letter by which people call it: "A"
 * @param equipment the bench, or what stands in for one
 * @param unitType the unit type file of a unit of which nothing else is said, if there is one
 * @param procedure the procedure file, likewise
 * @param shop what is the same for every run of the shop
 * @param records the folder for records and reports
 * @param archive where runs go when they have ended, if anywhere
 * @param tool name and version of the program
 * @param seal takes a record when it is closed; any thread
 */
public record Place(
    String letter,
    Equipment equipment,
    Optional<Path> unitType,
    Optional<Path> procedure,
    Optional<ShopFile> shop,
    Path records,
    Optional<ArchivePlace> archive,
    String tool,
    Consumer<Path> seal) {

  /** What units are tested with. */
  public sealed interface Equipment {}

  /**
   * A bench.
   *
   * @param file the bench file
   */
  public record Real(Path file) implements Equipment {}

  /**
   * A bench in this process.
   *
   * @param pace at which it is shown, bench seconds per second of real time
   * @param units which unit is there to be tested
   */
  public record Simulated(OptionalDouble pace, Units units) implements Equipment {}

  /** Which simulated unit somebody finds at a simulated bench. */
  public interface Units {
    /**
     * The simulation file of a unit.
     *
     * @param attempts how many whole runs there were of this job: by then it may be adjusted
     */
    Path simulation(String serial, int attempts);
  }

  boolean simulated() {
    return equipment instanceof Simulated;
  }

  /**
   * What a run is asked for.
   *
   * @param attempts how many there were at this job
   */
  RunRequest request(JobSheet sheet, Path usualProcedure, int attempts) {
    Optional<Path> bench =
        equipment instanceof Real real ? Optional.of(real.file()) : Optional.empty();
    Optional<Path> simulation =
        equipment instanceof Simulated s
            ? Optional.of(s.units().simulation(sheet.serial(), attempts))
            : Optional.empty();
    OptionalDouble pace = equipment instanceof Simulated s ? s.pace() : OptionalDouble.empty();
    return new RunRequest(
        simulation,
        bench,
        sheet.unitType().or(() -> simulation.isPresent() ? Optional.empty() : unitType),
        usualProcedure,
        sheet.serial(),
        sheet.operator(),
        sheet.order(),
        Optional.empty(),
        sheet.supervisor(),
        shop,
        Optional.empty(),
        records,
        Optional.empty(),
        pace);
  }
}
