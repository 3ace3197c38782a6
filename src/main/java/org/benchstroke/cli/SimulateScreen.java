package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.cli.ServedStations.Served;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.papers.Json;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;

/** Tells which simulated benches are served, where, and how to test the units on them. */
final class SimulateScreen {
  private final Shown out;
  private final double timeScale;

  /**
   * For one simulator.
   *
   * @param timeScale bench seconds per wall second
   */
  SimulateScreen(Shown out, double timeScale) {
    this.out = out;
    this.timeScale = timeScale;
  }

  /** In words. */
  void tell(ServedStations stations) {
    if (stations.all().size() == 1) {
      tellOne(stations.all().get(0));
    } else {
      tellSeveral(stations.all());
    }
    if (stations.switchedByHand()) {
      out.println(
          stations.all().size() == 1
              ? "This bench has no relay: Enter switches the motor supply, which is off now."
              : "These benches have no relay: type a station's number and Enter to switch its motor"
                  + " supply, which is off now.");
    }
    out.println("Ctrl-C stops it.");
    out.flush();
  }

  private void tellOne(Served served) {
    Simulation simulation = served.station().simulation();
    out.println("SIMULATED bench: " + simulation.name());
    out.println(simulation.shows());
    out.println();
    addresses(served).forEach((names, address) -> row(names, address));
    row("time", times());
    served.station().calibrated().ifPresent(c -> row("the unit's own calibration", text(c)));
    out.println();
    out.println("Bench file:  " + served.station().benchFile());
    out.println("Unit type:   " + simulation.unitTypeFile());
    out.println();
    out.println("In another terminal:");
    out.println(served.station().runLine());
    out.println();
  }

  private void row(String what, String value) {
    out.printf("  %-34s %s%n", what, value);
  }

  /** Few lines a station, so that many of them still fit a screen. */
  private void tellSeveral(List<Served> all) {
    out.println("SIMULATED benches: " + all.size() + " stations, " + times());
    out.println("In another terminal, test any of them with the line below it.");
    out.println();
    String before = "";
    for (Served served : all) {
      Simulation simulation = served.station().simulation();
      out.println(
          served.station().number() + "  " + simulation.name() + ", seed " + simulation.seed());
      if (!simulation.shows().equals(before)) {
        out.println("   " + simulation.shows());
      }
      before = simulation.shows();
      out.println("   " + String.join("; ", joined(addresses(served))));
      served
          .station()
          .calibrated()
          .ifPresent(c -> out.println("   the unit's own calibration " + text(c)));
      out.println(served.station().runLine());
      out.println();
    }
  }

  private static List<String> joined(Map<String, String> addresses) {
    List<String> joined = new ArrayList<>();
    addresses.forEach((names, address) -> joined.add(names + " " + address));
    return joined;
  }

  private String times() {
    return Numbers.plain(timeScale) + " × real time";
  }

  private static String text(SimulatedBench.Calibration calibrated) {
    String time = Numbers.fixed(calibrated.seconds(), 1) + " s";
    return calibrated.succeeded()
        ? "found its span in " + time
        : "found no span in " + time + " and keeps its old one";
  }

  /** As JSON in one line, for scripts: a station, or an object with a list of them. */
  void tellJson(ServedStations stations) {
    List<Served> all = stations.all();
    Object told =
        all.size() == 1
            ? json(all.get(0))
            : Map.of("stations", all.stream().map(SimulateScreen::jsonOfSeveral).toList());
    out.println(Json.line(told));
    out.flush();
  }

  private static Map<String, Object> jsonOfSeveral(Served served) {
    Map<String, Object> told = json(served);
    told.put("seed", served.station().simulation().seed());
    told.put("unit_type", served.station().simulation().unitTypeFile().toString());
    return told;
  }

  private static Map<String, Object> json(Served served) {
    Station station = served.station();
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("simulation", station.simulation().name());
    told.putAll(addresses(served));
    station
        .calibrated()
        .ifPresent(
            c ->
                told.put(
                    "calibration", Map.of("succeeded", c.succeeded(), "seconds", c.seconds())));
    told.put("bench_file", station.benchFile().toString());
    told.put("bench", served.benchToml());
    return told;
  }

  /** Where instruments are reached, by their names. */
  private static Map<String, String> addresses(Served served) {
    Map<Endpoint, String> names = served.station().bench().ports();
    Map<String, String> addresses = new LinkedHashMap<>();
    served
        .server()
        .reached()
        .forEach((written, address) -> addresses.put(names.get(written), address.text()));
    return addresses;
  }
}
