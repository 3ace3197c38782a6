package org.benchstroke.app.stations;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;

/** A floor of simulated stations for tests, and a person who does what is asked. */
public final class Driven implements AutoCloseable {
  public static final Driver ANN = new Driver("screen 1", "Ann");
  public static final Driver BEN = new Driver("screen 2", "Ben");

  /** No wait that a person would need. */
  public static final Manners QUICK = new Manners(0, 0, 1000);

  private static final long PATIENCE_MILLIS = 100_000;
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  private final Floor floor;

  private Driven(Floor floor) {
    this.floor = floor;
  }

  /**
   * Stations A, B and so on.
   *
   * @param pace bench seconds per second; empty for as fast as it goes
   */
  public static Driven floor(Path folder, int stations, OptionalDouble pace, Manners manners)
      throws Exception {
    Path procedure = Files.writeString(folder.resolve("brief.toml"), BRIEF);
    Path records = folder.resolve("records");
    return new Driven(
        new Floor(
            DemoFloor.places(
                    new DemoFloor.Wanted(
                        stations, pace.orElse(1.0), records, Optional.empty(), "test", path -> {}))
                .stream()
                .map(
                    place ->
                        new Place(
                            place.letter(),
                            new Place.Simulated(
                                pace, ((Place.Simulated) place.equipment()).units()),
                            place.unitType(),
                            Optional.of(procedure),
                            place.shop(),
                            place.records(),
                            place.archive(),
                            place.tool(),
                            place.seal()))
                .toList(),
            manners));
  }

  public Floor floor() {
    return floor;
  }

  public Station station() {
    return floor.stations().get(0);
  }

  public static JobSheet sheet(String serial) {
    return new JobSheet(
        serial, "4711", "Ann", Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** Waits until a station is seen to be so. */
  public Seen await(Station station, Predicate<Seen> so) throws InterruptedException {
    assertThat(floor.bell().await(() -> so.test(station.seen()), PATIENCE_MILLIS))
        .as("it stands at %s, %s", station.seen().stage(), station.seen().state())
        .isTrue();
    return station.seen();
  }

  /** The next question, or the end. */
  public Optional<Asked> asked(Station station, long after) throws InterruptedException {
    return await(
            station,
            s -> s.stage() == Stage.ENDED || s.asked().filter(a -> a.id() > after).isPresent())
        .asked();
  }

  /** Reads a question and says yes as it wants it. */
  public static void agree(Station station, Driver driver, Asked asked) throws NotNow {
    station.shown(driver, asked.id());
    if (asked.motion()) {
      station.hold(driver, asked.id());
    }
    station.agree(driver, asked.id());
  }

  /** Says yes to all that is asked until it has ended. */
  public Ended whole(Station station, Driver driver) throws Exception {
    Optional<Asked> asked = asked(station, 0);
    while (asked.isPresent()) {
      agree(station, driver, asked.get());
      asked = asked(station, asked.get().id());
    }
    return station.seen().ended().orElseThrow();
  }

  /** Up to the first question after which it moves. */
  public Asked untilMotion(Station station, Driver driver) throws Exception {
    Asked asked = asked(station, 0).orElseThrow();
    while (!asked.motion()) {
      agree(station, driver, asked);
      asked = asked(station, asked.id()).orElseThrow();
    }
    return asked;
  }

  /** Everything that was said of how they stand. */
  public List<Stage> stages() {
    return floor.stations().stream().map(s -> s.seen().stage()).toList();
  }

  @Override
  public void close() {
    floor.close();
  }
}
