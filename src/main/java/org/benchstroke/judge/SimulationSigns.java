package org.benchstroke.judge;

import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * What says that a record is of a simulated unit: its opening line, its bench file, and a clock
 * that ran at another speed than the wall's. One sign is enough; where they contradict each other
 * the record was changed, and is not sound.
 */
final class SimulationSigns {
  private final Event.Opened opened;
  private final Optional<BenchFile.Simulation> inFile;

  SimulationSigns(RunRecord record, BenchFile bench) {
    this.opened = record.opened();
    this.inFile = bench.simulation();
  }

  boolean any() {
    return inLine() || inFile.isPresent() || otherClock();
  }

  /** What was simulated, in words; empty if nothing was. */
  String shows() {
    if (!any()) {
      return "";
    }
    return inLine() ? opened.simulated() : inFile.map(s -> s.shows()).orElse("by its clock");
  }

  /** What contradicts what; empty if nothing does. */
  Optional<String> contradiction() {
    if (inFile.isPresent() && !inLine()) {
      return Optional.of(
          "its bench file says [simulation], its opening line names no simulated unit");
    }
    if (inFile.isEmpty() && inLine()) {
      return Optional.of(
          "its opening line says that the unit is simulated, its bench file has no [simulation]");
    }
    return inFile.isEmpty() && otherClock()
        ? Optional.of("its clock did not run at real time, though nothing is simulated")
        : Optional.empty();
  }

  private boolean inLine() {
    return !opened.simulated().isBlank();
  }

  private boolean otherClock() {
    return opened.timeScale() != 1.0;
  }
}
