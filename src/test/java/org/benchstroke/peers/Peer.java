package org.benchstroke.peers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.benchstroke.DebianProgram;

/** A program that no one here wrote, or that is made with a library that no one here wrote. */
final class Peer implements AutoCloseable {
  static final Path PYTHON = Path.of("/usr/bin/python3");
  private static final Path RESOURCES = Path.of("src/test/resources/peers");
  private static final long LONGEST_SECONDS = 20;

  private final Process process;
  private final BufferedReader out;

  private Peer(Process process) {
    this.process = process;
    this.out =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
  }

  static Path resource(String name) {
    return RESOURCES.resolve(name).toAbsolutePath();
  }

  /** Builds a C program with libmodbus. */
  static Path libmodbus(String name, Path folder) throws IOException, InterruptedException {
    DebianProgram.require("gcc");
    DebianProgram.requireFile("libmodbus-dev", Path.of("/usr/include/modbus/modbus.h"));
    Path program = folder.resolve(name);
    List<String> said =
        run("gcc", "-Wall", "-o", program.toString(), resource(name + ".c").toString(), "-lmodbus");
    assertThat(said).isEmpty();
    return program;
  }

  static void requirePymodbus() {
    DebianProgram.requireFile(
        "python3-pymodbus", Path.of("/usr/lib/python3/dist-packages/pymodbus"));
    DebianProgram.requireFile(
        "python3-serial-asyncio", Path.of("/usr/lib/python3/dist-packages/serial_asyncio"));
  }

  /** Starts a server. */
  static Peer start(String... command) throws IOException {
    return new Peer(new ProcessBuilder(command).redirectErrorStream(true).start());
  }

  /** What a program says until it ends. */
  static List<String> run(String... command) throws IOException, InterruptedException {
    try (Peer peer = start(command)) {
      List<String> said = peer.out.lines().toList();
      assertThat(peer.process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS)).isTrue();
      return said;
    }
  }

  /** Waits for its line "ready …" and gives what follows. */
  String ready() throws IOException {
    List<String> said = new ArrayList<>();
    for (String line = out.readLine(); line != null; line = out.readLine()) {
      if (line.startsWith("ready ")) {
        return line.substring("ready ".length());
      }
      said.add(line);
    }
    throw new IOException("the peer did not start: " + said);
  }

  @Override
  public void close() {
    process.destroy();
    process.onExit().join();
  }
}
