package org.benchstroke.acceptance;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.benchstroke.bench.BenchText;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.FileJournal;
import org.benchstroke.record.Journal;
import org.benchstroke.record.MemoryJournal;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunResult;
import org.benchstroke.run.Spectator;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.practice.VirtualRun;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.tests.RecordedRun;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * A whole run against a simulated unit on the virtual clock: the same drivers, runner and judge as
 * on a real bench, above simulated byte streams.
 */
public final class VirtualBench {
  public static final Path SIMULATORS = Path.of("simulators");
  private static final Path PROCEDURE = Path.of("demo-data/procedures/short-acceptance.toml");
  private static final Instant START = Instant.parse("2026-06-01T08:00:00Z");

  private final VirtualClock clock = new VirtualClock(START);
  private final StopSwitch stop = new StopSwitch();
  private final SimulatedBench unit;
  private UnitType unitType;
  private String unitTypeText;
  private Procedure procedure;
  private String procedureText;
  private UnaryOperator<LinkOpener> links = UnaryOperator.identity();
  private UnaryOperator<String> benchText = UnaryOperator.identity();
  private List<Spectator> spectators = List.of();
  private Optional<Operator> operator = Optional.empty();
  private RunResult result;

  private VirtualBench(SimulatedBench unit) {
    Simulation simulation = unit.simulation();
    this.unit = unit;
    this.unitType = simulation.unitType();
    try {
      this.unitTypeText = TomlDocument.textOf(simulation.unitTypeFile());
      this.procedureText = TomlDocument.textOf(PROCEDURE);
      this.procedure = ProcedureReader.read(PROCEDURE);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** A bench with the unit of a file in simulators/. */
  public static VirtualBench with(String simulation) {
    return with(simulation(simulation));
  }

  public static VirtualBench with(Simulation simulation) {
    return new VirtualBench(SimulatedBench.of(simulation));
  }

  /** The unit of a file in simulators/ with the instruments of a bench file around it. */
  public static VirtualBench with(String simulation, Path benchFile) {
    return with(simulation(simulation), benchFile);
  }

  static VirtualBench with(Simulation simulation, Path benchFile) {
    try {
      String text = BenchText.of(benchFile).text();
      return new VirtualBench(SimulatedBench.around(simulation, benchFile.toString(), text));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** Likewise, with the text of a bench file. */
  static VirtualBench with(Simulation simulation, String benchName, String benchText) {
    try {
      return new VirtualBench(SimulatedBench.around(simulation, benchName, benchText));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  public static Simulation simulation(String name) {
    try {
      return SimulationReader.read(SIMULATORS.resolve(name + ".toml"));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** The unit of a file in simulators/ with further tables, its links' faults for instance. */
  public static Simulation simulation(String name, String tables) {
    Path file = SIMULATORS.resolve(name + ".toml");
    try {
      return SimulationReader.read(file, TomlDocument.textOf(file) + tables);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  public VirtualBench procedure(Procedure other) {
    procedure = other;
    return this;
  }

  /** Changes the unit type's file; the simulated unit stays as it is. */
  public VirtualBench unitType(UnaryOperator<String> change) {
    unitTypeText = change.apply(unitTypeText);
    try {
      unitType = UnitTypeReader.read(TomlDocument.parse("unit-type.toml", unitTypeText));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
    return this;
  }

  /** Runs another procedure, given as the tables {@code [[test]]} of its file. */
  public VirtualBench tests(String tables) {
    procedureText =
        """
        kind = "procedure"
        format = 1
        name = "Test"
        version = "1"
        """
            + tables;
    try {
      procedure = ProcedureReader.read(TomlDocument.parse("procedure.toml", procedureText));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
    return this;
  }

  /** Puts something between the drivers and the simulated links. */
  public VirtualBench links(UnaryOperator<LinkOpener> between) {
    links = between;
    return this;
  }

  /** Lets links fail as no script can, or listens to them. */
  VirtualBench weather(FaultyLinks.Weather weather) {
    return links(sound -> new FaultyLinks(sound, clock, weather));
  }

  /** Changes the bench file's text before it is read. */
  public VirtualBench benchText(UnaryOperator<String> change) {
    benchText = change;
    return this;
  }

  public VirtualBench watchedBy(Spectator... watching) {
    spectators = List.of(watching);
    return this;
  }

  public VirtualBench askedBy(Operator other) {
    operator = Optional.of(other);
    return this;
  }

  public StopSwitch stop() {
    return stop;
  }

  public VirtualClock clock() {
    return clock;
  }

  /** Where an instrument of a simulated bench is reached, by its name in the bench file. */
  public static Endpoint addressOf(SimulatedBench bench, String instrument) {
    return bench.ports().entrySet().stream()
        .filter(port -> List.of(port.getValue().split(", ", -1)).contains(instrument))
        .map(Map.Entry::getKey)
        .findFirst()
        .orElseThrow();
  }

  public SimulatedBench unit() {
    return unit;
  }

  /** What really flows in the loop, whatever anyone reads, mA. */
  public double trueLoopMilliamps() {
    return unit.truth().loopMilliamps();
  }

  /** How the last run ended. */
  public RunResult result() {
    return result;
  }

  /** Runs into memory. */
  public RunRecord run() {
    MemoryJournal journal = new MemoryJournal(clock);
    runInto(journal);
    return journal.record();
  }

  /** Runs and judges. */
  public JudgedRun judge() {
    return judge(run());
  }

  /** Judges a record by the files that it holds. */
  static JudgedRun judge(RunRecord record) {
    try {
      return RecordedRun.judge(record);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** Runs into a new file. */
  public Path runInto(Path file) {
    try {
      runInto(FileJournal.create(file, clock));
      return file;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Runs into a journal of the caller's. */
  public void runInto(Journal journal) {
    try (journal) {
      VirtualRun run =
          new VirtualRun(
                  unit,
                  new VirtualRun.InputFile<>(unitType, unitTypeText),
                  new VirtualRun.InputFile<>(procedure, procedureText))
              .by(clock, stop)
              .links(links)
              .benchText(benchText)
              .watchedBy(spectators);
      operator.ifPresent(run::askedBy);
      result = run.into(journal);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
