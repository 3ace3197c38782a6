package org.benchstroke.app.stations;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.benchstroke.app.DemoFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchivePlace;

/**
 * Simulated stations with invented jobs, for whoever wants to see the screen without a bench. A
 * unit with a fault is found with it, and is sound at the next attempt: as if somebody had turned
 * what the advice says. Stateless.
 */
public final class DemoFloor {
  private static final String SOUND = "healthy-b.toml";

  /**
   * An invented job.
   *
   * @param serial of its unit
   * @param order of an invented customer
   * @param simulation how the unit is found
   */
  public record DemoJob(String serial, String order, String simulation) {}

  /** What can be scanned. */
  public static final List<DemoJob> JOBS =
      List.of(
          new DemoJob("QT-0042", "4711", SOUND),
          new DemoJob("QT-0043", "4711", "zero-shift.toml"),
          new DemoJob("QT-0044", "4711", "slack-after-sensor.toml"),
          new DemoJob("QT-0051", "4712", "wrong-fail-action.toml"),
          new DemoJob("QT-0052", "4712", "span-error.toml"),
          new DemoJob("QT-0053", "4712", "dead-spot.toml"));

  private DemoFloor() {}

  /**
   * How the demo is made.
   *
   * @param stations how many, 1 to 16
   * @param pace bench seconds per second of real time
   * @param records the folder for records, in whose folder "demo" the demo's own files are put
   * @param archive where its runs go
   * @param tool name and version of the program
   * @param seal takes a record when it is closed
   */
  public record Wanted(
      int stations,
      double pace,
      Path records,
      Optional<ArchivePlace> archive,
      String tool,
      Consumer<Path> seal) {}

  /**
   * The places of the demo.
   *
   * @throws WrongRequest if its files can't be written there
   */
  public static List<Place> places(Wanted wanted) throws WrongRequest {
    Path folder = wanted.records().resolve("demo");
    DemoFiles.unpack(folder);
    Map<String, Path> found = new LinkedHashMap<>();
    JOBS.forEach(job -> found.put(job.serial(), simulation(folder, job.simulation())));
    Path sound = simulation(folder, SOUND);
    Place.Units units =
        (serial, attempts) -> attempts > 0 ? sound : found.getOrDefault(serial, sound);
    List<Place> places = new ArrayList<>();
    for (int i = 0; i < wanted.stations(); i++) {
      places.add(
          new Place(
              String.valueOf((char) ('A' + i)),
              new Place.Simulated(OptionalDouble.of(wanted.pace()), units),
              Optional.empty(),
              Optional.of(folder.resolve("demo-data/procedures/short-acceptance.toml")),
              Optional.empty(),
              wanted.records(),
              wanted.archive(),
              wanted.tool(),
              wanted.seal()));
    }
    return places;
  }

  private static Path simulation(Path folder, String name) {
    return folder.resolve("simulators").resolve(name);
  }
}
