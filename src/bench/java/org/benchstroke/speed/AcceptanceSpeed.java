package org.benchstroke.speed;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.LongFunction;
import java.util.function.ToDoubleFunction;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.practice.FaultDraw;
import org.benchstroke.simulator.practice.Severity;
import org.benchstroke.simulator.practice.VirtualRun;
import org.benchstroke.simulator.practice.VirtualRun.InputFile;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.tests.RecordedRun;
import org.benchstroke.unit.UnitTypeReader;

/**
 * A routine acceptance on the virtual clock, from the simulated unit to its diagnosis, on one
 * thread and into memory; each round with another seed. The first rounds, while Java still
 * compiles, are not counted.
 */
final class AcceptanceSpeed {
  private static final Path PROCEDURE = Path.of("demo-data/procedures/routine-acceptance.toml");
  private static final Path SOUND = Path.of("simulators/healthy-b.toml");
  private static final Path UNIT_TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final int WARM_UP = 60;
  private static final int ROUNDS = 100;

  private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();

  /** One round, ms of the processor but for the whole on the clock. */
  private record Round(
      double run, double judge, double diagnose, double clock, int samples, double seconds) {}

  void run(Extent extent) throws FileMistakes {
    System.out.printf(
        Locale.ROOT,
        "%nRoutine acceptance, medians of %d rounds, ms of the processor%n"
            + "| unit | samples | virtual time, s | run | judged | diagnosed | all | on the clock"
            + " |%n",
        extent.of(ROUNDS, 1));
    Simulation sound = SimulationReader.read(SOUND);
    measure("sound, healthy-b", sound::withSeed, true, extent);
    List<Cause> causes = FaultDraw.causes();
    measure(
        "drawn, each cause in turn",
        seed ->
            FaultDraw.unit(
                causes.get((int) (seed % causes.size())), Severity.CLEAR, seed, UNIT_TYPE, ""),
        false,
        extent);
    System.out.printf(
        Locale.ROOT,
        "| the simulated unit alone, steps of 1 ms in a second | %.1f million |%n",
        ModelSpeed.stepsPerSecond(extent) / 1e6);
  }

  private void measure(String name, LongFunction<Simulation> units, boolean sound, Extent extent)
      throws FileMistakes {
    List<Round> rounds = new ArrayList<>();
    int warmUp = extent.of(WARM_UP, 0);
    for (int i = 0; i < warmUp + extent.of(ROUNDS, 1); i++) {
      Round round = round(units.apply(i + 1L), sound);
      if (i >= warmUp) {
        rounds.add(round);
      }
    }
    System.out.printf(
        Locale.ROOT,
        "| %s | %.0f | %.0f | %.1f | %.1f | %.1f | %.1f | %.1f |%n",
        name,
        median(rounds, Round::samples),
        median(rounds, Round::seconds),
        median(rounds, Round::run),
        median(rounds, Round::judge),
        median(rounds, Round::diagnose),
        median(rounds, r -> r.run() + r.judge() + r.diagnose()),
        median(rounds, Round::clock));
  }

  private Round round(Simulation unit, boolean sound) throws FileMistakes {
    long clock = System.nanoTime();
    long begin = threads.getCurrentThreadCpuTime();
    RunRecord record = run(unit);
    long ran = threads.getCurrentThreadCpuTime();
    JudgedRun judged = RecordedRun.judge(record);
    long told = threads.getCurrentThreadCpuTime();
    Diagnosis diagnosis = Diagnosis.of(judged);
    long end = threads.getCurrentThreadCpuTime();
    double whole = (System.nanoTime() - clock) / 1e6;
    if (diagnosis.ranked().isEmpty()) {
      throw new IllegalStateException("no diagnosis");
    }
    if (sound && !judged.passed()) {
      throw new IllegalStateException("a sound unit did not pass: " + judged.verdict());
    }
    List<Entry> entries = record.entries();
    return new Round(
        (ran - begin) / 1e6,
        (told - ran) / 1e6,
        (end - told) / 1e6,
        whole,
        (int) record.events(Event.Sampled.class).count(),
        entries.get(entries.size() - 1).nanos() / 1e9);
  }

  /** With the reading of the files, as each run has it. */
  private static RunRecord run(Simulation unit) throws FileMistakes {
    String unitType = TomlDocument.textOf(unit.unitTypeFile());
    String procedure = TomlDocument.textOf(PROCEDURE);
    return new VirtualRun(
            SimulatedBench.of(unit),
            new InputFile<>(
                UnitTypeReader.read(TomlDocument.parse("unit-type.toml", unitType)), unitType),
            new InputFile<Procedure>(
                ProcedureReader.read(TomlDocument.parse("procedure.toml", procedure)), procedure))
        .record();
  }

  private static double median(List<Round> rounds, ToDoubleFunction<Round> figure) {
    double[] sorted = rounds.stream().mapToDouble(figure).sorted().toArray();
    return sorted[sorted.length / 2];
  }
}
