package org.benchstroke.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.simulator.SimulationReader;

/** Lists the simulation files of a folder with what each shows, for people at a terminal. */
final class SimulationList {
  private static final String END = ".toml";

  private final PrintWriter out;

  SimulationList(PrintWriter out) {
    this.out = out;
  }

  /**
   * Prints one line for each file.
   *
   * @throws FileMistakes with every mistake of the first file that has any
   */
  void tell(Path folder) throws WrongRequest, IOException, FileMistakes {
    if (!Files.isDirectory(folder)) {
      throw new WrongRequest(folder + ": is no folder of simulation files; name one with --list");
    }
    List<Path> files;
    try (Stream<Path> found = Files.list(folder)) {
      files = found.filter(f -> f.toString().endsWith(END)).sorted().toList();
    }
    if (files.isEmpty()) {
      throw new WrongRequest(folder + ": holds no simulation file, which ends in " + END);
    }
    int width = files.stream().mapToInt(f -> f.toString().length()).max().orElseThrow();
    for (Path file : files) {
      String name = file.toString();
      out.println(
          name + " ".repeat(width - name.length() + 2) + SimulationReader.read(file).shows());
    }
    out.flush();
  }
}
