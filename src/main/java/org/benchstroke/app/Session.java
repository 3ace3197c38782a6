package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.BenchText;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.jobs.JobKey;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;
import org.benchstroke.record.FileJournal;
import org.benchstroke.record.Label;
import org.benchstroke.run.Before;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Resumption;
import org.benchstroke.run.RunPlan;
import org.benchstroke.run.RunResult;
import org.benchstroke.run.Runner;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.setup.Difference;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * One run, from what is asked for to its record; {@link Reports} makes the rest of that. It shows
 * nothing and asks nobody: that do the watchers and the operator that it is given. One thread.
 */
public final class Session {
  /** A watcher that takes nothing for so long is left out. Own choice. */
  private static final long PATIENCE_NANOS = 5_000_000_000L;

  private final RunRequest request;
  private final RunPlan plan;
  private final Optional<SimulatedBench> inProcess;
  private final EarlierAttempts earlier;
  private final SetUpStore.OfJob setUp;

  private Session(RunRequest request, RunPlan plan, Optional<SimulatedBench> inProcess)
      throws IOException {
    this(request, plan, inProcess, earlier(request, plan), setUp(request, plan));
  }

  private Session(
      RunRequest request,
      RunPlan plan,
      Optional<SimulatedBench> inProcess,
      EarlierAttempts earlier,
      SetUpStore.OfJob setUp) {
    this.request = request;
    this.plan = plan;
    this.inProcess = inProcess;
    this.earlier = earlier;
    this.setUp = setUp;
  }

  private static SetUpStore.OfJob setUp(RunRequest request, RunPlan plan) throws IOException {
    JobKey job = new JobKey(plan.order(), plan.serial());
    return new SetUpStore(request.records())
        .of(job, plan.bench().simulation().isPresent(), plan.unit());
  }

  private static EarlierAttempts earlier(RunRequest request, RunPlan plan) throws IOException {
    return EarlierAttempts.of(
        new RecordStore(request.records()),
        new JobKey(plan.order(), plan.serial()),
        plan.bench().simulation().isPresent());
  }

  /**
   * Reads the files; opens no link.
   *
   * @param tool name and version of the program
   * @throws FileMistakes with every mistake in any of the files
   * @throws WrongRequest if it can't be done as it is asked for
   * @throws IOException if the records can't be listed
   */
  public static Session of(RunRequest request, String tool)
      throws FileMistakes, WrongRequest, IOException {
    WrongRequest.requireWords("--serial", request.serial());
    WrongRequest.requireWords("--operator", request.operator());
    WrongRequest.requireWords("--order", request.order());
    return request.simulation().isPresent()
        ? inProcess(request, request.simulation().get(), tool)
        : overLinks(request, tool);
  }

  private static Session overLinks(RunRequest request, String tool)
      throws FileMistakes, IOException {
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> bench = files.bench(request.bench().orElseThrow());
    GivenFiles.Given<UnitType> unit =
        files.read(request.unitType().orElseThrow(), UnitTypeReader::read);
    GivenFiles.Given<Procedure> procedure = files.read(request.procedure(), ProcedureReader::read);
    files.finish();
    Event.SourceFile source = bench.source(BenchFileReader.KIND);
    RunPlan plan = plan(request, bench.value(), source, unit, procedure, tool);
    return new Session(request, plan, Optional.empty());
  }

  private static Session inProcess(RunRequest request, Path file, String tool)
      throws FileMistakes, WrongRequest, IOException {
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<Simulation> simulation = files.read(file, text -> SimulationReader.read(file));
    GivenFiles.Given<Procedure> procedure = files.read(request.procedure(), ProcedureReader::read);
    files.finish();
    Path type = request.unitType().orElseGet(simulation.value()::unitTypeFile);
    GivenFiles.Given<UnitType> unit = files.read(type, UnitTypeReader::read);
    files.finish();
    SimulatedBench bench = bench(simulation.value(), request.bench());
    String name =
        request.bench().map(path -> path.getFileName().toString()).orElse("simulated-bench.toml");
    String text = bench.benchToml(Map.of(), 1.0);
    BenchFile read = BenchFileReader.read(TomlDocument.parse(name, text));
    if (read.instruments().stream().anyMatch(InstrumentSpec::typedIn)) {
      throw new WrongRequest(
          name
              + ": nobody can look at an instrument of --simulation that is \"typed in\"; serve"
              + " the bench with \"simulate\" and run against that");
    }
    Event.SourceFile source = new Event.SourceFile(BenchFileReader.KIND, name, text);
    RunPlan plan = plan(request, read, source, unit, procedure, tool);
    return new Session(request, plan, Optional.of(bench));
  }

  /**
   * The bench of a simulation.
   *
   * @param played the bench file whose instruments are played; empty for a built-in bench
   */
  public static SimulatedBench bench(Simulation simulation, Optional<Path> played)
      throws FileMistakes {
    return played.isEmpty()
        ? SimulatedBench.builtIn(simulation)
        : SimulatedBench.around(
            simulation, played.get().toString(), BenchText.of(played.get()).text());
  }

  private static RunPlan plan(
      RunRequest request,
      BenchFile bench,
      Event.SourceFile benchSource,
      GivenFiles.Given<UnitType> unit,
      GivenFiles.Given<Procedure> procedure,
      String tool) {
    return new RunPlan(
        bench,
        unit.value(),
        procedure.value(),
        List.of(
            benchSource, unit.source(UnitTypeReader.KIND), procedure.source(ProcedureReader.KIND)),
        request.serial().strip(),
        request.operator().strip(),
        request.order().strip(),
        tool,
        job(request),
        Before.NOTHING);
  }

  private static Optional<Event.Job> job(RunRequest request) {
    if (request.supervisor().isEmpty()) {
      return request.job();
    }
    Event.Job job = request.job().orElseGet(() -> new Event.Job("", Map.of()));
    Map<Label, String> facts = new EnumMap<>(Label.class);
    facts.putAll(job.facts());
    facts.put(Label.SUPERVISOR, request.supervisor().get().strip());
    return Optional.of(new Event.Job(job.customer(), job.air(), facts));
  }

  /** How many attempts at this job there are already. */
  public int earlierAttempts() {
    return earlier.attempts();
  }

  /** Whether somebody must allow this attempt, and nobody is named who does. */
  public boolean wantsSupervisor() {
    return request.supervisor().isEmpty() && earlier.needsSupervisor(simulated());
  }

  /**
   * The same, allowed by somebody.
   *
   * @throws WrongRequest if that can't be: the shop's list does not name the person
   */
  public Session allowedBy(String supervisor) throws WrongRequest {
    requireSupervisor(supervisor);
    RunRequest allowed = request.allowedBy(supervisor);
    return new Session(allowed, plan.of(job(allowed)), inProcess, earlier, setUp);
  }

  private void requireSupervisor(String name) throws WrongRequest {
    WrongRequest.requireWords("--supervisor", name);
    Optional<ShopFile> shop = request.shop().filter(s -> !s.maySupervise(name));
    if (shop.isPresent()) {
      throw new WrongRequest(
          "--supervisor: \""
              + name.strip()
              + "\" is not on the shop's list; on it are "
              + String.join(", ", shop.get().supervisors()));
    }
  }

  private void requireAllowed() throws WrongRequest {
    if (request.supervisor().isPresent()) {
      requireSupervisor(request.supervisor().get());
    }
    if (wantsSupervisor()) {
      throw new WrongRequest(
          "Unit "
              + plan.serial()
              + " of order "
              + plan.order()
              + " had "
              + earlier.attempts()
              + " attempts; a supervisor must allow the next: --supervisor NAME");
    }
    requireAsOrdered();
    if (inProcess.isEmpty()) {
      try {
        new BenchChecks(request.records()).requireFit(plan.bench().name(), simulated());
      } catch (IOException e) {
        throw new WrongRequest(
            "the bench's own checks can't be read: " + e.getMessage() + "; see bench-check");
      }
    }
  }

  /** What the unit type says must agree: nobody can agree to the contrary. */
  private void requireAsOrdered() throws WrongRequest {
    List<Difference> blocking = setUp.blocking();
    if (!blocking.isEmpty()) {
      throw new WrongRequest(
          "Unit "
              + plan.serial()
              + " of order "
              + plan.order()
              + " is not as ordered by its set-up "
              + setUp.found().orElseThrow().record()
              + ": "
              + blocking.stream().map(Difference::sentence).collect(Collectors.joining("; "))
              + ". Its unit type file says that this must agree (must_agree): put it right at the"
              + " unit, then note it anew with \"setup\"");
    }
  }

  /** What is run. */
  public RunPlan plan() {
    return plan;
  }

  public boolean simulated() {
    return plan.bench().simulation().isPresent();
  }

  /**
   * Keeps the bench to this program until that is closed; opens no link yet.
   *
   * @param clocks gives the clock of a bench; of a virtual one it says what day it is
   * @param stop ends the run, and the pace at which it is shown
   * @param warn is told if nobody can be kept away
   * @throws WrongRequest if another program uses it, or the transcripts can't be written; or if
   *     somebody must allow the attempt, and nobody does
   */
  public Ground ground(
      Function<BenchFile, BenchClock> clocks, StopSwitch stop, Consumer<String> warn)
      throws WrongRequest {
    requireAllowed();
    BenchClock clock = clocks.apply(plan.bench());
    if (inProcess.isEmpty()) {
      String work = "a run of unit " + plan.serial() + " by " + plan.operator();
      BenchLinks.Wanted wanted = BenchLinks.Wanted.of(plan.bench(), work);
      return new Ground(BenchLinks.of(wanted, request.capture(), warn), clock, inProcess);
    }
    VirtualClock virtual = new VirtualClock(clock.utc());
    SimulatedLinks links = SimulatedLinks.on(inProcess.get(), virtual);
    request.timeScale().ifPresent(scale -> virtual.follow(new Pace(scale, stop)));
    return new Ground(BenchLinks.to(links, request.capture()), virtual, inProcess);
  }

  /**
   * What there is to say before the run: how the last one left the source, whether the unit was met
   * before, whether the shop knows the operator.
   *
   * @return sentences; none if all is well
   * @throws IOException if the records can't be listed
   */
  public List<String> warnings() throws IOException {
    List<String> warnings = new ArrayList<>(LastRun.warnings(store(), plan.bench()));
    said().forEach(said -> warnings.add("WARNING: " + said + "."));
    return warnings;
  }

  /** What a person must know before the unit moves. */
  private List<String> said() {
    List<String> said = new ArrayList<>(earlier.sentences());
    said.addAll(checks());
    said.addAll(setUp.said());
    if (request.shop().filter(shop -> !shop.mayTest(plan.operator())).isPresent()) {
      said.add("the operator, " + plan.operator() + ", is not on the shop's list");
    }
    return said;
  }

  /** A bench in this process has no checks. */
  private List<String> checks() {
    if (inProcess.isPresent()) {
      return List.of();
    }
    try {
      return new BenchChecks(request.records()).said(plan.bench().name(), simulated());
    } catch (IOException | WrongRequest e) {
      return List.of("the bench's own checks can't be read: " + e.getMessage());
    }
  }

  /** A unit in this process is gone with the process in which it was left. */
  private Before before(Instant now) throws IOException, WrongRequest {
    Optional<Before.LeftUnit> left =
        inProcess.isPresent() ? Optional.empty() : LastRun.left(store(), plan.bench());
    if (request.resume().isEmpty()) {
      return noted(new Before(said(), left, Optional.empty()));
    }
    Resumption resumed = ResumedRun.of(request.resume().get(), plan, now);
    List<String> said = new ArrayList<>(said());
    said.add(
        "goes on with "
            + resumed.from().record()
            + "; not run again: "
            + resumed.whole().stream()
                .sorted()
                .map(index -> plan.procedure().tests().get(index).name())
                .collect(Collectors.joining(", ")));
    return noted(new Before(said, left, Optional.of(resumed)));
  }

  private Before noted(Before before) {
    return before.after(
        setUp.found(), setUp.differences().stream().map(Difference::sentence).toList());
  }

  RecordStore store() {
    return new RecordStore(request.records());
  }

  /** Notes that the operator saw to the unit of an earlier run; gives the file with that note. */
  public Path note(Path seenTo, Instant now) throws WrongRequest, IOException {
    return SeenTo.note(seenTo, plan.operator(), now);
  }

  /**
   * Runs. Whatever happens, it ends with the unit's safe signal commanded.
   *
   * @param operator is asked; on this thread
   * @param watchers see it; none of them can hold it up
   * @param seal takes the record when it is closed, the signal safe by then, however the run ended
   * @throws WrongRequest if no record can be written
   * @throws IOException if the record can't be closed
   */
  public Outcome run(
      Ground ground,
      Operator operator,
      List<Watcher> watchers,
      StopSwitch stop,
      Consumer<Path> seal)
      throws WrongRequest, IOException {
    RecordFiles files = store().fresh(request.serial(), ground.clock().utc());
    try {
      return run(ground, operator, watchers, stop, files, PATIENCE_NANOS);
    } finally {
      seal.accept(files.record());
    }
  }

  Outcome run(
      Ground ground,
      Operator operator,
      List<Watcher> watchers,
      StopSwitch stop,
      RecordFiles files,
      long patienceNanos)
      throws WrongRequest, IOException {
    BenchClock clock = ground.clock();
    RunPlan told = plan.after(before(clock.utc()));
    try (FileJournal journal = journal(files.record(), clock)) {
      Audience audience = new Audience(watchers, patienceNanos, ground.inProcess().isPresent());
      Operator asked = ground.hands(audience.before(operator));
      Bench bench =
          BenchAssembly.of(plan.bench(), plan.unit(), ground.links().opener(), clock, asked);
      RunResult result =
          new Runner(told, bench, clock, journal, List.of(audience), asked, stop).run();
      return new Outcome(files, result, audience.end());
    }
  }

  private static FileJournal journal(Path record, BenchClock clock) throws WrongRequest {
    try {
      return FileJournal.create(record, clock);
    } catch (IOException e) {
      throw WrongRequest.unwritable(record, e);
    }
  }
}
