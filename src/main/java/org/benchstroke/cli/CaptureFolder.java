package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.transport.SystemLinks;
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

  /** The system's links, captured if that was asked for. */
  CaptureOption links() throws WrongRequest {
    return CaptureOption.of(folder, new SystemLinks());
  }
}
