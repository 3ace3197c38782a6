package org.benchstroke.setup;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.MemoryJournal;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.practice.SetUpHands;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * A whole set-up of a simulated unit on the virtual clock, over roles, drivers and byte streams as
 * on a real bench, by simulated hands that do what the state says.
 */
public final class VirtualSetUp {
  public static final Path EVERY_ROLE = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Instant START = Instant.parse("2026-06-01T08:00:00Z");
  private static final long LONGEST_NANOS = 400_000_000_000L;
  private static final Operator SAYS_YES = question -> new Answer.Yes("test");

  private final VirtualClock clock = new VirtualClock(START);
  private final SimulatedBench simulated;
  private final SimulatedLinks links;
  private final SetUpHands hands;
  private final SetUpPlan plan;
  private final SetUp setUp;
  private final MemoryJournal memory;

  private VirtualSetUp(
      Simulation simulation,
      Path benchFile,
      UnaryOperator<String> benchText,
      UnaryOperator<String> unitText,
      UnaryOperator<Journal> journal) {
    try {
      String text = benchText.apply(TomlDocument.textOf(benchFile));
      simulated = SimulatedBench.around(simulation, benchFile.toString(), text);
      String unitFile = unitText.apply(TomlDocument.textOf(simulation.unitTypeFile()));
      UnitType unit = UnitTypeReader.read(TomlDocument.parse("unit.toml", unitFile));
      links = SimulatedLinks.on(simulated, clock);
      String bench = simulated.benchToml(Map.of(), 1.0);
      BenchFile file = BenchFileReader.read(TomlDocument.parse("bench.toml", bench));
      plan =
          new SetUpPlan(
              file,
              unit,
              List.of(
                  new Event.SourceFile(BenchFileReader.KIND, "bench.toml", bench),
                  new Event.SourceFile(UnitTypeReader.KIND, "unit.toml", unitFile)),
              "QT-1",
              "Ann",
              "4711",
              "test");
      Bench roles = BenchAssembly.of(file, unit, links, clock, SAYS_YES);
      hands = new SetUpHands(simulated);
      memory = new MemoryJournal(clock);
      setUp = SetUp.begin(plan, roles, clock, journal.apply(memory));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** On a bench that plays every role. */
  public static VirtualSetUp of(String simulation) {
    return of(simulation, EVERY_ROLE, UnaryOperator.identity(), UnaryOperator.identity());
  }

  /** On a bench of a file, with changes to it and to the unit type. */
  public static VirtualSetUp of(
      String simulation, Path bench, UnaryOperator<String> benchText, UnaryOperator<String> unit) {
    return new VirtualSetUp(
        simulation(simulation), bench, benchText, unit, UnaryOperator.identity());
  }

  /** With a simulation that was made for the purpose, and a journal around the one in memory. */
  public static VirtualSetUp of(Simulation simulation, UnaryOperator<Journal> journal) {
    return new VirtualSetUp(
        simulation, EVERY_ROLE, UnaryOperator.identity(), UnaryOperator.identity(), journal);
  }

  static Simulation simulation(String name) {
    try {
      return SimulationReader.read(Path.of("simulators", name + ".toml"));
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** Hands do all of it. */
  public VirtualSetUp whole() {
    return until(state -> state.ended().isPresent());
  }

  /** Hands work until the state is like this. */
  public VirtualSetUp until(Predicate<SetUpState> reached) {
    while (!reached.test(setUp.state())) {
      if (clock.nanos() > LONGEST_NANOS) {
        throw new IllegalStateException("it does not come to an end: " + setUp.state());
      }
      if (!reached.test(aLook())) {
        hands.work(setUp.state()).ifPresent(this::say);
      }
    }
    return this;
  }

  /** Until a step's own work begins. */
  public VirtualSetUp to(StepKey key) {
    return until(state -> state.step().key() == key && state.caution().isEmpty());
  }

  /** One look, when it is due. */
  public SetUpState aLook() {
    clock.waitUntil(setUp.dueNanos());
    return setUp.look();
  }

  public SetUpState say(SetUpAnswer answer) {
    SetUpState state = setUp.answer(setUp.state().number(), answer);
    hands.supply(state);
    return state;
  }

  /** For so long, with a look whenever one is due. */
  public void wait(double seconds, Consumer<SetUpState> seen) {
    long end = clock.nanos() + (long) (seconds * 1e9);
    while (clock.nanos() < end) {
      seen.accept(aLook());
    }
  }

  public SetUp setUp() {
    return setUp;
  }

  public SetUpHands hands() {
    return hands;
  }

  public SimulatedBench simulated() {
    return simulated;
  }

  public SetUpPlan plan() {
    return plan;
  }

  public RunRecord record() {
    return memory.record();
  }

  /** What was recorded of a step. */
  public Event.SetUpStep step(StepKey key) {
    return record()
        .events(Event.SetUpStep.class)
        .filter(each -> each.step().equals(key.key()))
        .findFirst()
        .orElseThrow(() -> new IllegalStateException("no step " + key));
  }
}
