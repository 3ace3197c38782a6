package org.benchstroke.cli;

import org.benchstroke.app.OutputFiles;
import picocli.CommandLine.Option;

/** The option {@code --force}, for every command that writes a file which a person names. */
final class ForceOption {
  @Option(
      names = "--force",
      description =
          "Replaces a file that is there and is no older one of the same kind; never one that was"
              + " given, nor a record.")
  private boolean force;

  OutputFiles outputs() {
    return new OutputFiles(force);
  }
}
