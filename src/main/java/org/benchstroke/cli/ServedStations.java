package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SharedClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.simulator.SimulatorServer;

/**
 * Stations that are served side by side, each by a server and on a clock of its own: nothing that
 * is done to one is seen at another. Closed together. One thread at a time.
 */
final class ServedStations implements AutoCloseable {

  /**
   * A station and what serves it.
   *
   * @param clockFile by which its time is shared, if it is faster than the wall's
   */
  record Served(Station station, SimulatorServer server, Optional<Path> clockFile) {
    String benchToml() {
      return server.benchToml(clockFile);
    }
  }

  private final List<Served> all = new ArrayList<>();

  private ServedStations() {}

  /**
   * Begins to serve all of them, or none.
   *
   * @param timeScale bench seconds per wall second
   * @param turnRoundNanos how long an instrument on a serial port thinks before it answers, ns of
   *     the wall
   * @param slowed is told which station does not keep its time scale, and how fast it is, once
   * @throws WrongRequest if a port can't be used, with the name of the station
   */
  static ServedStations serve(
      List<Station> stations, double timeScale, long turnRoundNanos, Consumer<String> slowed)
      throws WrongRequest {
    ServedStations served = new ServedStations();
    for (Station station : stations) {
      String at = stations.size() > 1 ? station.title() + ": " : "";
      try {
        Optional<Path> file = clockFile(timeScale);
        BenchClock clock =
            file.isEmpty()
                ? SystemClock.scaled(timeScale)
                : SharedClock.serve(
                    file.get(), timeScale, pace -> slowed.accept(at + slowed(pace)));
        SimulatorServer server =
            SimulatorServer.start(
                station.bench(), clock, station.ports(), station.serial(), turnRoundNanos);
        served.all.add(new Served(station, server, file));
      } catch (IOException e) {
        served.close();
        String option = e instanceof LinkException ? "--serial: " : "--port: ";
        throw new WrongRequest(option + at + e.getMessage());
      }
    }
    return served;
  }

  /** Time that is no faster than the wall's needs no sharing: no computer is too slow for it. */
  private static Optional<Path> clockFile(double timeScale) throws IOException {
    if (timeScale <= 1.0) {
      return Optional.empty();
    }
    Path file = Files.createTempFile("benchstroke-", ".clock");
    file.toFile().deleteOnExit();
    return Optional.of(file);
  }

  private static String slowed(double pace) {
    return "slowed to " + Numbers.fixed(pace, pace < 3.0 ? 1 : 0) + " ×: the computer is busy";
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
