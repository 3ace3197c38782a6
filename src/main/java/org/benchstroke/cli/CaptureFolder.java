package org.benchstroke.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.WrongRequest;
import picocli.CommandLine.Option;

/** The option {@code --capture}, for every command that speaks with instruments. */
final class CaptureFolder {
  @Option(
      names = "--capture",
      paramLabel = "DIR",
      description = "Writes what goes over each link into a transcript in this folder.")
  private Optional<Path> folder = Optional.empty();

  Optional<Path> folder() {
    return folder;
  }

  /** The system's links to addresses that nobody else uses, captured if that was asked for. */
  BenchLinks links(BenchLinks.Wanted wanted, PrintWriter err) throws WrongRequest {
    return BenchLinks.of(wanted, folder, err::println);
  }
}
