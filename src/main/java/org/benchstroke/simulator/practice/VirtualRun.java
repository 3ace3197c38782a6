package org.benchstroke.simulator.practice;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.MemoryJournal;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunPlan;
import org.benchstroke.run.RunResult;
import org.benchstroke.run.Runner;
import org.benchstroke.run.Spectator;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.unit.UnitType;

/**
 * A whole run against a simulated unit in this process, on a virtual clock: the same drivers,
 * runner and journal as on a real bench, above simulated byte streams. The same unit, files and
 * seeds give the same record. One thread; one run each.
 */
public final class VirtualRun {
  private static final Instant START = Instant.parse("2026-06-01T08:00:00Z");

  private final SimulatedBench bench;
  private final InputFile<UnitType> unitType;
  private final InputFile<Procedure> procedure;
  private VirtualClock clock = new VirtualClock(START);
  private StopSwitch stop = new StopSwitch();
  private UnaryOperator<LinkOpener> between = UnaryOperator.identity();
  private UnaryOperator<String> benchText = UnaryOperator.identity();
  private List<Spectator> spectators = List.of();
  private Operator operator;

  /**
   * A file that was read.
   *
   * @param value what it says
   * @param text its text, for the record
   */
  public record InputFile<T>(T value, String text) {}

  /** A run of the procedure; its operator agrees to everything. */
  public VirtualRun(
      SimulatedBench bench, InputFile<UnitType> unitType, InputFile<Procedure> procedure) {
    this.bench = bench;
    this.unitType = unitType;
    this.procedure = procedure;
    this.operator = new SimulatedHands(bench, SimulatedHands.AGREES);
  }

  /** Puts something between the drivers and the simulated links. */
  public VirtualRun links(UnaryOperator<LinkOpener> other) {
    between = other;
    return this;
  }

  /** Changes the bench file's text before it is read. */
  public VirtualRun benchText(UnaryOperator<String> change) {
    benchText = change;
    return this;
  }

  public VirtualRun watchedBy(List<Spectator> watching) {
    spectators = watching;
    return this;
  }

  public VirtualRun askedBy(Operator other) {
    operator = other;
    return this;
  }

  /** Goes by that clock, and stops at that switch. */
  public VirtualRun by(VirtualClock otherClock, StopSwitch otherStop) {
    clock = otherClock;
    stop = otherStop;
    return this;
  }

  /** Runs into memory. */
  public RunRecord record() {
    MemoryJournal journal = new MemoryJournal(clock);
    into(journal);
    return journal.record();
  }

  /**
   * Runs into a journal, which stays open.
   *
   * @throws IllegalStateException if the changed bench file can't be read
   */
  public RunResult into(Journal journal) {
    try {
      String benchToml = benchText.apply(bench.benchToml(Map.of(), 1.0));
      BenchFile file = BenchFileReader.read(TomlDocument.parse("bench.toml", benchToml));
      RunPlan plan =
          new RunPlan(
              file,
              unitType.value(),
              procedure.value(),
              List.of(
                  new Event.SourceFile("bench", "bench.toml", benchToml),
                  new Event.SourceFile("unit type", "unit-type.toml", unitType.text()),
                  new Event.SourceFile("procedure", "procedure.toml", procedure.text())),
              "SIM-" + bench.simulation().seed(),
              "virtual",
              "none",
              "benchstroke, virtual clock");
      LinkOpener opener = between.apply(SimulatedLinks.on(bench, clock));
      Bench assembled = BenchAssembly.of(file, unitType.value(), opener, clock, operator);
      return new Runner(plan, assembled, clock, journal, spectators, operator, stop).run();
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }
}
