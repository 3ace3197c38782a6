package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import org.benchstroke.simulator.Conclusion;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;

/**
 * Lists the simulation files of a folder with the cause that it is expected to have and what it
 * shows, for people at a terminal.
 */
final class SimulationList {
  private static final String END = ".toml";

  /** In the place of a cause that the file does not name. */
  private static final String NOTHING = "–";

  private record Line(String file, String cause, String shows) {}

  private final Shown out;
  private final boolean json;

  SimulationList(Shown out, boolean json) {
    this.out = out;
    this.json = json;
  }

  /**
   * Prints one line for each file.
   *
   * @throws FileMistakes with every mistake of the first file that has any
   */
  void tell(Path folder) throws WrongRequest, IOException, FileMistakes {
    if (!Files.isDirectory(folder)) {
      throw new WrongRequest(
          folder + ": is not a folder of simulation files; name one with --list");
    }
    List<Path> files;
    try (Stream<Path> found = Files.list(folder)) {
      files = found.filter(f -> f.toString().endsWith(END)).sorted().toList();
    }
    if (files.isEmpty()) {
      throw new WrongRequest(folder + ": holds no simulation file, which ends in " + END);
    }
    List<Line> lines = new ArrayList<>();
    for (Path file : files) {
      Simulation simulation = SimulationReader.read(file);
      String cause = simulation.expected().map(Conclusion::cause).orElse(json ? "" : NOTHING);
      lines.add(new Line(file.toString(), cause, simulation.shows()));
    }
    if (json) {
      out.println(Json.line(lines));
      return;
    }
    int names = width(lines, Line::file);
    int causes = width(lines, Line::cause);
    for (Line line : lines) {
      out.println(padded(line.file(), names) + padded(line.cause(), causes) + line.shows());
    }
    out.flush();
  }

  private static int width(List<Line> lines, Function<Line, String> column) {
    return lines.stream().map(column).mapToInt(String::length).max().orElseThrow();
  }

  private static String padded(String text, int width) {
    return text + " ".repeat(width - text.length() + 2);
  }
}
