package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A run is killed, and another begins on that bench: the first current that the source is told is
 * the safe signal of the unit that was left, which is another than that of the unit tested now.
 */
@Timeout(120)
class LeftUnitTest {
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      """;
  private static final String CHECK = "unit of the last run";

  @TempDir Path folder;

  private final LeapingClock clock = new LeapingClock();
  private final Set<Path> known = new TreeSet<>();

  private Command run(Path type, Object... more) {
    Object[] arguments =
        Command.runArguments(
            folder.resolve("bench.toml"),
            type,
            folder.resolve("brief.toml"),
            folder.resolve("records"));
    return Command.run(clock, Stream.concat(Stream.of(arguments), Stream.of(more)).toArray());
  }

  /** The record that was not there before. */
  private Path fresh() throws Exception {
    try (Stream<Path> files = Files.list(folder.resolve("records"))) {
      Path found =
          files
              .filter(f -> f.toString().endsWith(".jsonl") && known.add(f))
              .collect(Collectors.toList())
              .get(0);
      return found;
    }
  }

  /** What a kill leaves: all lines up to one in the middle, that one torn. */
  private void kill(Path record) throws Exception {
    List<String> lines = Files.readAllLines(record);
    int last = lines.size() * 2 / 3;
    String kept =
        String.join("\n", lines.subList(0, last)) + "\n" + lines.get(last).substring(0, 9);
    Files.writeString(record, kept);
    Files.delete(record.resolveSibling(record.getFileName() + ".seal"));
  }

  private static List<Double> safeSignals(RunRecord record) {
    return record
        .events(Event.MadeSafe.class)
        .filter(Event.MadeSafe::confirmed)
        .map(Event.MadeSafe::signalMilliamps)
        .toList();
  }

  private static List<String> told(RunRecord record) {
    return record
        .events(Event.Checked.class)
        .filter(checked -> checked.check().equals(CHECK))
        .map(checked -> checked.outcome() + ": " + checked.detail())
        .toList();
  }

  @Test
  void itsSafeSignalComesFirst() throws Exception {
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (SimulatorServer server = SimulatorServer.start(unit, clock.followed(), Map.of())) {
      Files.writeString(folder.resolve("bench.toml"), ShortRun.patient(server.benchToml()));
      Files.writeString(folder.resolve("brief.toml"), BRIEF);
      Path other =
          Files.writeString(
              folder.resolve("other.toml"),
              Files.readString(ShortRun.TYPE)
                  .replaceFirst("safe_signal_mA = [0-9.]+", "safe_signal_mA = 5.0"));
      run(other);
      Path killed = fresh();
      kill(killed);

      Command next = run(ShortRun.TYPE);
      RunRecord record = RecordReader.read(fresh());
      assertThat(next.err())
          .contains(killed + ": this run was interrupted")
          .contains("puts that unit's safe signal on before anything else");
      assertThat(safeSignals(record).subList(0, 2)).containsExactly(5.0, 4.0);
      assertThat(told(record))
          .containsExactly(
              "ok: the unit of "
                  + killed.getFileName()
                  + " may not have been left safe, so its safe signal, 5.000 mA, was put on first:"
                  + " confirmed, the source reads back 5.000 mA");
      assertThat(next.out().replaceAll("\\s+", " ")).contains("safe signal, 5.000 mA, was put on");

      run(ShortRun.TYPE);
      RunRecord after = RecordReader.read(fresh());
      assertThat(told(after)).isEmpty();
      assertThat(safeSignals(after)).doesNotContain(5.0);
    }
  }

  /** Where somebody has seen to it, nothing more is done for it. */
  @Test
  void aUnitThatWasSeenToIsLeftAlone() throws Exception {
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (SimulatorServer server = SimulatorServer.start(unit, clock.followed(), Map.of())) {
      Files.writeString(folder.resolve("bench.toml"), ShortRun.patient(server.benchToml()));
      Files.writeString(folder.resolve("brief.toml"), BRIEF);
      run(ShortRun.TYPE);
      Path killed = fresh();
      kill(killed);
      run(ShortRun.TYPE, "--seen-to", killed);
      assertThat(told(RecordReader.read(fresh()))).isEmpty();
    }
  }
}
