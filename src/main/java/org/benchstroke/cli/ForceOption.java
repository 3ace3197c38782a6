package org.benchstroke.cli;

import org.benchstroke.app.OutputFiles;
import picocli.CommandLine.Option;

/** The option {@code --force}, for every command that writes a file which a person names. */
final class ForceOption {
  @Option(
      names = "--force",
      description =
          "Replaces an existing file even if it is not an earlier one of the same kind; never an"
              + " input file or a record.")
  private boolean force;

  OutputFiles outputs() {
    return new OutputFiles(force);
  }
}
