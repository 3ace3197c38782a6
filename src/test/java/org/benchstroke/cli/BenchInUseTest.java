package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A bench on which a run is under way, as a program of its own: nobody else gets in. */
@Timeout(300)
class BenchInUseTest {
  @TempDir Path folder;

  @Test
  void whoeverComesToABenchInUseIsToldByWhomAndDisturbsNothing() throws Exception {
    try (SimulatorServer server = server()) {
      Path bench = Files.writeString(folder.resolve("bench.toml"), server.benchToml());
      Path other =
          Files.writeString(
              folder.resolve("other.toml"), server.benchToml().replace("127.0.0.1", "localhost"));
      Path records = Files.createDirectory(folder.resolve("records"));
      Process run;
      try (RecordTail tail = new RecordTail(records)) {
        run = start(bench, records);
        tail.await("\"test_began\"");
      }
      try {
        Path elsewhere = folder.resolve("elsewhere");
        String source = server.addresses().get(BuiltInBench.SOURCE).text();
        for (Command refused :
            new Command[] {
              Command.run(Command.runArguments(other, ShortRun.TYPE, elsewhere)),
              Command.run("drive", "--unattended", "--bench", other, "--unit-type", ShortRun.TYPE),
              Command.run("probe", "--bench", other, "--seconds", "0.1"),
              Command.run(
                  "find-map", "--unattended", "--bench", other, "--unit-type", ShortRun.TYPE),
              Command.run("scan", source)
            }) {
          assertThat(refused.code()).as(refused.err()).isEqualTo(2);
          assertThat(refused.err())
              .contains("is in use by a run of unit T-1 by Ann (user ")
              .contains("process " + run.pid() + ", since ")
              .contains("Nothing was done.");
        }
        assertThat(elsewhere).doesNotExist();
        assertThat(run.isAlive()).isTrue();
        // Another bench is not concerned.
        try (SimulatorServer second = server()) {
          Path next = Files.writeString(folder.resolve("next.toml"), second.benchToml());
          assertThat(Command.run("probe", "--bench", next, "--seconds", "0.1").err()).isEmpty();
        }
      } finally {
        run.destroyForcibly();
      }
      assertThat(run.waitFor(30, TimeUnit.SECONDS)).isTrue();
      // Killed: what it left behind holds nothing.
      Command probe = Command.run("probe", "--bench", bench, "--seconds", "0.1");
      assertThat(probe.err()).doesNotContain("in use");
      assertThat(probe.code()).isNotEqualTo(2);
    }
  }

  private Process start(Path bench, Path records) throws Exception {
    Object[] arguments = Command.runArguments(bench, ShortRun.TYPE, records);
    return Command.program(arguments)
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve("run.txt").toFile())
        .start();
  }

  /** In real time, so that the run is still under way when all have tried. */
  private static SimulatorServer server() throws Exception {
    return SimulatorServer.start(
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml"))),
        SystemClock.scaled(1),
        Map.of());
  }
}
