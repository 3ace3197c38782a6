package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;

/**
 * One of the stations that a simulator serves, before it is served: a unit on a bench of its own.
 *
 * @param number its place among them, from 1
 * @param bench the unit and its instruments
 * @param calibrated how the unit's own calibration went, if there was one
 * @param benchFile where its bench file is written
 * @param firstPort the first of its TCP ports in a row; 0 means any that are free
 * @param serial which of its lines are served on serial ports
 */
record Station(
    int number,
    SimulatedBench bench,
    Optional<SimulatedBench.Calibration> calibrated,
    Path benchFile,
    int firstPort,
    List<SerialPlace> serial) {
  Station {
    serial = List.copyOf(serial);
  }

  Simulation simulation() {
    return bench.simulation();
  }

  /** Which one it is, for messages. */
  String title() {
    return "station " + number + " (" + simulation().name() + ")";
  }

  /** Which port serves which address of the bench file; none named where any will do. */
  Map<Endpoint, Integer> ports() {
    Map<Endpoint, Integer> ports = new HashMap<>();
    if (firstPort > 0) {
      int next = firstPort;
      for (Endpoint written : bench.ports().keySet()) {
        ports.put(written, next++);
      }
    }
    return ports;
  }

  /** What a person types to test the unit, in another terminal. */
  String runLine() {
    return Invocation.program()
        + (bench.switchedByHand() ? " run --bench " : " run --unattended --bench ")
        + benchFile
        + " --unit-type "
        + simulation().unitTypeFile()
        + " --procedure demo-data/procedures/short-acceptance.toml"
        + " --serial SIM-"
        + number
        + " --operator me --order none";
  }

  /**
   * The file of one station: "bench.toml" becomes "bench-2.toml", unless there is only one.
   *
   * @param of how many stations there are
   */
  static Path file(Path named, int number, int of) {
    if (of == 1) {
      return named;
    }
    String name = Optional.ofNullable(named.getFileName()).map(Path::toString).orElse("");
    int dot = name.lastIndexOf('.');
    int end = dot > 0 ? dot : name.length();
    return named.resolveSibling(name.substring(0, end) + "-" + number + name.substring(end));
  }
}
