package org.benchstroke.speed;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.benchstroke.DebianProgram;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Every benchmark still runs, and what it measures agrees: a short form of each, untimed. */
class BenchmarksTest {
  private static final Path PACKAGES = Path.of("/usr/lib/python3/dist-packages");

  @TempDir private Path folder;

  @TestFactory
  @Timeout(120)
  Stream<DynamicTest> agree() {
    return Benchmarks.all(folder).entrySet().stream()
        .map(
            each ->
                DynamicTest.dynamicTest(
                    each.getKey(),
                    () -> {
                      require(each.getKey());
                      quietly(each.getValue());
                    }));
  }

  /** Figures of so short a form say nothing. */
  private static void quietly(Benchmarks.Benchmark benchmark) throws Exception {
    PrintStream out = System.out;
    PrintStream err = System.err;
    try (PrintStream nowhere = new PrintStream(OutputStream.nullOutputStream(), false, US_ASCII)) {
      System.setOut(nowhere);
      System.setErr(nowhere);
      benchmark.run(Extent.SHORT);
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
  }

  private static void require(String benchmark) {
    switch (benchmark) {
      case "screen", "screen-memory" -> DebianProgram.require("chromium");
      case "tcp", "rtu", "paced", "memory", "stations", "screen-stations" -> {
        DebianProgram.require("gcc");
        DebianProgram.require("socat");
        DebianProgram.requireFile("libmodbus-dev", Path.of("/usr/include/modbus/modbus.h"));
      }
      case "analysis" -> {
        DebianProgram.requireFile("python3-numpy", PACKAGES.resolve("numpy"));
        DebianProgram.requireFile("python3-scipy", PACKAGES.resolve("scipy"));
      }
      case "archive-server", "archive-many" ->
          DebianProgram.requireFile("postgresql", Path.of("/usr/lib/postgresql"));
      default -> {}
    }
  }
}
