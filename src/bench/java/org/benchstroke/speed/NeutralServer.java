package org.benchstroke.speed;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;

/** The programs of src/bench/c, which share no code with ours. */
final class NeutralServer implements AutoCloseable {
  private static final Path SOURCES = Path.of("src/bench/c");

  private final Process process;
  private final String ready;

  private NeutralServer(Process process, String ready) {
    this.process = process;
    this.ready = ready;
  }

  static Path built(String name, Path folder) throws IOException, InterruptedException {
    Path program = folder.resolve(name);
    Process gcc =
        new ProcessBuilder(
                "gcc",
                "-O2",
                "-o",
                program.toString(),
                SOURCES.resolve(name + ".c").toString(),
                "-lmodbus")
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    if (gcc.waitFor() != 0) {
      throw new IOException("gcc and libmodbus-dev are needed to build " + name + ".c");
    }
    return program;
  }

  static NeutralServer started(Path program, String... arguments) throws IOException {
    Process process = process(program, arguments);
    return new NeutralServer(process, ready(process));
  }

  int port() {
    return Integer.parseInt(ready);
  }

  /** Runs a client to its end and gives what it measured. */
  static double measured(Path program, String... arguments) throws Exception {
    Process process = process(program, arguments);
    double rate = Double.parseDouble(ready(process));
    process.waitFor();
    return rate;
  }

  /** What it says once it is ready. */
  String said() {
    return ready;
  }

  private static Process process(Path program, String... arguments) throws IOException {
    List<String> command = new java.util.ArrayList<>(List.of(program.toString()));
    command.addAll(List.of(arguments));
    return new ProcessBuilder(command).redirectErrorStream(true).start();
  }

  private static String ready(Process process) throws IOException {
    BufferedReader said =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    String line = said.readLine();
    if (line == null || !line.startsWith("ready ")) {
      throw new IOException("the other program did not start: " + line);
    }
    return line.substring("ready ".length());
  }

  @Override
  public void close() {
    process.destroy();
    process.onExit().join();
  }
}
