package org.benchstroke.cli;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.simulator.SimulatorServer;

/**
 * Stations that are served side by side, each by a server and on a clock of its own: nothing that
 * is done to one is seen at another. Closed together. One thread at a time.
 */
final class ServedStations implements AutoCloseable {

  /** A station and what serves it. */
  record Served(Station station, SimulatorServer server) {}

  private final List<Served> all = new ArrayList<>();

  private ServedStations() {}

  /**
   * Begins to serve all of them, or none.
   *
   * @param timeScale bench seconds per wall second
   * @param turnRoundNanos how long an instrument on a serial port thinks before it answers, ns of
   *     the wall
   * @throws WrongRequest if a port can't be used, with the name of the station
   */
  static ServedStations serve(List<Station> stations, double timeScale, long turnRoundNanos)
      throws WrongRequest {
    ServedStations served = new ServedStations();
    for (Station station : stations) {
      SystemClock clock = SystemClock.scaled(timeScale);
      try {
        SimulatorServer server =
            SimulatorServer.start(
                station.bench(), clock, station.ports(), station.serial(), turnRoundNanos);
        served.all.add(new Served(station, server));
      } catch (IOException e) {
        served.close();
        String option = e instanceof LinkException ? "--serial: " : "--port: ";
        String at = stations.size() > 1 ? station.title() + ": " : "";
        throw new WrongRequest(option + at + e.getMessage());
      }
    }
    return served;
  }

  List<Served> all() {
    return List.copyOf(all);
  }

  boolean switchedByHand() {
    return all.stream().anyMatch(one -> one.station().bench().switchedByHand());
  }

  /**
   * Turns the hand switch of a motor supply.
   *
   * @param typed the station's number; of a single station anything
   * @return what to tell the person who typed it
   */
  String turnMotorSupply(String typed) {
    if (all.size() == 1) {
      return "Motor supply " + turned(all.get(0));
    }
    return all.stream()
        .filter(one -> typed.equals(Integer.toString(one.station().number())))
        .findFirst()
        .map(one -> "Station " + typed + ": motor supply " + turned(one))
        .orElseGet(
            () -> "found \"" + typed + "\", allowed is a station's number, 1 to " + all.size());
  }

  private static String turned(Served one) {
    return one.server().turnMotorSupply() ? "ON" : "off";
  }

  @Override
  public void close() {
    all.forEach(one -> one.server().close());
  }
}
