package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.record.Event;
import org.benchstroke.record.FileJournal;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.setup.SetUp;
import org.benchstroke.setup.SetUpPlan;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * The set-up of one unit, from what is asked for to its record. It shows nothing and asks nobody:
 * whoever drives the {@link SetUp} that it begins does that. One thread.
 */
public final class SettingUp {
  /** A source without a port is set by a person at the step that says so. */
  private static final Operator SAID_AT_THE_STEP =
      question ->
          question instanceof Question.Task ? new Answer.Yes("as said at the step") : Answer.no();

  private final SetUpRequest request;
  private final SetUpPlan plan;
  private final Path unitTypeFile;
  private final Optional<SimulatedBench> inProcess;

  private SettingUp(
      SetUpRequest request, SetUpPlan plan, Path unitTypeFile, Optional<SimulatedBench> inProcess) {
    this.request = request;
    this.plan = plan;
    this.unitTypeFile = unitTypeFile;
    this.inProcess = inProcess;
  }

  /**
   * Reads the files; opens no link.
   *
   * @param tool name and version of the program
   * @throws FileMistakes with every mistake in any of the files
   * @throws WrongRequest if it can't be done as it is asked for
   */
  public static SettingUp of(SetUpRequest request, String tool) throws FileMistakes, WrongRequest {
    WrongRequest.requireWords("--serial", request.serial());
    WrongRequest.requireWords("--operator", request.operator());
    WrongRequest.requireWords("--order", request.order());
    return request.simulation().isPresent()
        ? inProcess(request, request.simulation().get(), tool)
        : overLinks(request, tool);
  }

  private static SettingUp overLinks(SetUpRequest request, String tool) throws FileMistakes {
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> bench = files.bench(request.bench().orElseThrow());
    GivenFiles.Given<UnitType> unit =
        files.read(request.unitType().orElseThrow(), UnitTypeReader::read);
    files.finish();
    SetUpPlan plan = plan(request, bench.value(), bench.source(BenchFileReader.KIND), unit, tool);
    return new SettingUp(request, plan, unit.path(), Optional.empty());
  }

  private static SettingUp inProcess(SetUpRequest request, Path file, String tool)
      throws FileMistakes {
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<Simulation> simulation = files.read(file, text -> SimulationReader.read(file));
    files.finish();
    Path type = request.unitType().orElseGet(simulation.value()::unitTypeFile);
    GivenFiles.Given<UnitType> unit = files.read(type, UnitTypeReader::read);
    files.finish();
    SimulatedBench bench = Session.bench(simulation.value(), request.bench());
    String name =
        request.bench().map(path -> path.getFileName().toString()).orElse("simulated-bench.toml");
    String text = bench.benchToml(Map.of(), 1.0);
    BenchFile read = BenchFileReader.read(TomlDocument.parse(name, text));
    Event.SourceFile source = new Event.SourceFile(BenchFileReader.KIND, name, text);
    return new SettingUp(
        request, plan(request, read, source, unit, tool), unit.path(), Optional.of(bench));
  }

  private static SetUpPlan plan(
      SetUpRequest request,
      BenchFile bench,
      Event.SourceFile benchSource,
      GivenFiles.Given<UnitType> unit,
      String tool) {
    return new SetUpPlan(
        bench,
        unit.value(),
        List.of(benchSource, unit.source(UnitTypeReader.KIND)),
        request.serial().strip(),
        request.operator().strip(),
        request.order().strip(),
        tool);
  }

  /** What is set up. */
  public SetUpPlan plan() {
    return plan;
  }

  public boolean simulated() {
    return plan.bench().simulation().isPresent();
  }

  /**
   * The maker's own page or drawing.
   *
   * @param file where it should be
   * @param there whether it is there
   */
  public record Manual(Path file, boolean there) {}

  /** The one that the unit type names, beside its file. */
  public Optional<Manual> manual() {
    return plan.unit()
        .setUp()
        .manual()
        .map(unitTypeFile.toAbsolutePath()::resolveSibling)
        .map(file -> new Manual(file, Files.isRegularFile(file)));
  }

  /**
   * Keeps the bench to this program until that is closed; opens no link yet.
   *
   * @param clocks gives the clock of a bench
   * @param stop ends the pace at which a simulation is shown
   * @param warn is told if nobody can be kept away
   * @throws WrongRequest if another program uses it, or the transcripts can't be written
   */
  public Ground ground(
      Function<BenchFile, BenchClock> clocks, StopSwitch stop, Consumer<String> warn)
      throws WrongRequest {
    BenchClock clock = clocks.apply(plan.bench());
    if (inProcess.isEmpty()) {
      String work = "a set-up of unit " + plan.serial() + " by " + plan.operator();
      BenchLinks.Wanted wanted = BenchLinks.Wanted.of(plan.bench(), work);
      return new Ground(BenchLinks.of(wanted, request.capture(), warn), clock, inProcess);
    }
    VirtualClock virtual = new VirtualClock(clock.utc());
    SimulatedLinks links = SimulatedLinks.on(inProcess.get(), virtual);
    request.timeScale().ifPresent(scale -> virtual.follow(new Pace(scale, stop)));
    return new Ground(BenchLinks.to(links, request.capture()), virtual, inProcess);
  }

  /**
   * A set-up that was begun, with its record. Closed when it has ended.
   *
   * @param setUp to be driven
   * @param record its file
   * @param journal writes it
   */
  public record Begun(SetUp setUp, Path record, FileJournal journal) implements AutoCloseable {
    @Override
    public void close() throws IOException {
      journal.close();
    }
  }

  /**
   * Begins.
   *
   * @throws WrongRequest if no record can be written
   */
  public Begun begin(Ground ground) throws WrongRequest {
    Path record = store().fresh(plan.serial(), ground.clock().utc());
    FileJournal journal = journal(record, ground.clock());
    Bench bench =
        BenchAssembly.of(
            plan.bench(), plan.unit(), ground.links().opener(), ground.clock(), SAID_AT_THE_STEP);
    return new Begun(SetUp.begin(plan, bench, ground.clock(), journal), record, journal);
  }

  /**
   * Records that the unit came set up; no instrument is opened.
   *
   * @return the record
   * @throws WrongRequest if it can't be written
   */
  public Path cameSetUp(BenchClock clock) throws WrongRequest {
    Path record = store().fresh(plan.serial(), clock.utc());
    try (FileJournal journal = journal(record, clock)) {
      SetUp.cameSetUp(plan, clock, journal);
    } catch (IOException e) {
      throw WrongRequest.unwritable(record, e);
    }
    return record;
  }

  private SetUpStore store() {
    return new SetUpStore(request.records());
  }

  private static FileJournal journal(Path record, BenchClock clock) throws WrongRequest {
    try {
      return FileJournal.create(record, clock);
    } catch (IOException e) {
      throw WrongRequest.unwritable(record, e);
    }
  }
}
