package org.benchstroke.app.stations;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;

/** All stations of a program, and what rings when one of them changes. Any thread. */
public final class Floor implements AutoCloseable {
  /** So many letters tell stations apart at a glance. */
  public static final int MOST = 16;

  private static final long ENDS_MILLIS = 20_000;

  private final Bell bell = new Bell();
  private final List<Station> stations;

  /** Of these places, in their order. */
  public Floor(List<Place> places, Manners manners) {
    stations = places.stream().map(place -> new Station(place, manners, bell)).toList();
  }

  public List<Station> stations() {
    return stations;
  }

  public Bell bell() {
    return bell;
  }

  /** The one of a letter. */
  public Optional<Station> station(String letter) {
    return stations.stream().filter(s -> s.place().letter().equalsIgnoreCase(letter)).findFirst();
  }

  /**
   * Takes a job at a station, if the unit is at no other.
   *
   * @throws NotNow if it is, or the station can't take it now
   */
  public void take(Station station, JobSheet sheet, Driver driver)
      throws NotNow, FileMistakes, WrongRequest, IOException {
    for (Station other : stations) {
      Seen seen = other.seen();
      boolean there = seen.stage() == Stage.TAKEN || seen.stage() == Stage.RUNNING;
      if (other != station && there && seen.isOf(sheet.serial())) {
        throw new NotNow(
            "Unit " + sheet.serial() + " is at station " + other.place().letter() + " now.");
      }
    }
    station.take(sheet, driver);
  }

  /** Where a unit is, or was last. */
  public Optional<Station> where(String serial) {
    return stations.stream().filter(each -> each.seen().isOf(serial)).findFirst();
  }

  /** Whether anything runs. */
  public boolean runs() {
    return stations.stream().anyMatch(each -> each.seen().stage() == Stage.RUNNING);
  }

  /** Stops all that runs. */
  public void stopAll(String who) {
    stations.forEach(each -> each.stop(who));
  }

  /** Stops whatever runs, and waits until each unit has its safe signal. */
  @Override
  public void close() {
    stations.forEach(each -> each.stop("the end of the program"));
    try {
      for (Station each : stations) {
        each.join(ENDS_MILLIS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
