package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A record that can't be written on: the run ends safe and says which file, and why. */
@Timeout(300)
class LostRecordTest {
  private static final double SCALE = 10;

  @TempDir Path folder;

  @Test
  void aRecordThatIsDeletedWhileItIsWrittenEndsTheRun() throws Exception {
    try (SimulatorServer server = server()) {
      Path bench = Files.writeString(folder.resolve("bench.toml"), server.benchToml());
      Path records = Files.createDirectory(folder.resolve("records"));
      RecordTail tail = new RecordTail(records);
      CompletableFuture<Path> deleted =
          CompletableFuture.supplyAsync(
              () -> {
                try (tail) {
                  tail.await("\"current_milliamps\":20.0");
                  Path record = ShortRun.recordIn(records);
                  Files.delete(record);
                  return record;
                } catch (IOException e) {
                  throw new IllegalStateException(e);
                }
              });
      Command run = Command.run(Command.runArguments(bench, ShortRun.TYPE, records));
      assertEnded(server, run.code(), run.err(), deleted.get().toString());
      assertThat(run.err()).contains("it was deleted or moved away");
      assertThat(records).isEmptyDirectory();
    }
  }

  /** The system lets no file of the program grow beyond 100 kB: EFBIG, as a full disk is ENOSPC. */
  @Test
  void aDiskThatFillsEndsTheRun() throws Exception {
    try (SimulatorServer server = server()) {
      Path bench = Files.writeString(folder.resolve("bench.toml"), server.benchToml());
      Path records = folder.resolve("records");
      List<String> limited =
          new ArrayList<>(List.of("sh", "-c", "ulimit -f 200; exec \"$@\"", "sh"));
      limited.addAll(
          Invocation.again(
                  Stream.of(Command.runArguments(bench, ShortRun.TYPE, records))
                      .map(String::valueOf)
                      .toList())
              .command());
      ProcessBuilder program = new ProcessBuilder(limited);
      program.environment().put(KeyPlace.FOLDER, Command.KEYS.folder().toString());
      Process run =
          program
              .redirectOutput(folder.resolve("out.txt").toFile())
              .redirectError(folder.resolve("err.txt").toFile())
              .start();
      try {
        assertThat(run.waitFor(240, TimeUnit.SECONDS)).isTrue();
      } finally {
        run.destroyForcibly();
      }
      String err = Files.readString(folder.resolve("err.txt"), StandardCharsets.UTF_8);
      assertEnded(server, run.exitValue(), err, ShortRun.recordIn(records).toString());
      assertThat(err).contains("File too large").contains("What was written before that is in ");
      assertThat(Files.size(ShortRun.recordIn(records))).isLessThanOrEqualTo(200 * 512);
    }
  }

  private static void assertEnded(SimulatorServer server, int code, String err, String record)
      throws IOException {
    assertThat(code).as(err).isEqualTo(3);
    assertThat(err)
        .contains("The run was ended: the record can't be written: " + record + ": ")
        .contains("Safe signal: confirmed, the source reads back 4.000 mA")
        .doesNotContain("Exception");
    assertThat(LeftLiveTest.setting(server)).isEqualTo(0.004);
  }

  private static SimulatorServer server() throws Exception {
    return SimulatorServer.start(
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml"))),
        SystemClock.scaled(SCALE),
        Map.of());
  }
}
