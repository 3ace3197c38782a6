package org.benchstroke.cli;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** The option {@code --records}, for every command that leaves something there. */
final class RecordsOption {
  @Option(
      names = "--records",
      paramLabel = "DIR",
      defaultValue = "records",
      description = "The folder for the files that it leaves (default: ${DEFAULT-VALUE}).")
  private Path folder;

  Path folder() {
    return folder;
  }
}
