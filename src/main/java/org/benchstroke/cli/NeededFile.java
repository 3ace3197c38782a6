package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Setting;
import org.benchstroke.app.WrongRequest;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** A file that a command can't do without, from its option or from what is stated. Stateless. */
final class NeededFile {
  private NeededFile() {}

  /**
   * The file.
   *
   * @param typed what its option says: a path, or a short name
   * @throws CommandLine.ParameterException if nobody names one
   * @throws WrongRequest if a short name is no file's, or that of several
   */
  static Path of(CommandSpec spec, Defaults stated, Setting setting, Optional<String> typed)
      throws WrongRequest {
    return stated
        .file(setting, typed)
        .orElseThrow(() -> missing(spec, "'" + setting.option() + "=FILE'"));
  }

  /** That options are missing, and where else they could be stated. */
  static CommandLine.ParameterException missing(CommandSpec spec, String options) {
    return new CommandLine.ParameterException(
        spec.commandLine(),
        "Missing required options: "
            + options
            + "; a shop file or a user file may state them (see: benchstroke config)");
  }
}
