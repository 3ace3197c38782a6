package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import picocli.CommandLine;
import picocli.CommandLine.ExecutionException;
import picocli.CommandLine.IExecutionStrategy;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.ScopeType;

/** The options {@code --log} and {@code --log-level}, of every command. */
final class LogOption {
  private static final List<String> LEVELS = List.of("error", "warn", "info", "debug", "trace");

  /** What went over the wire is told from here on. */
  private static final String USUAL = "debug";

  @Option(
      names = "--log",
      paramLabel = "FILE",
      scope = ScopeType.INHERIT,
      description = "Adds to this file what went on inside, and over the wire.")
  private Optional<Path> file = Optional.empty();

  @Option(
      names = "--log-level",
      paramLabel = "WORD",
      scope = ScopeType.INHERIT,
      description = "With --log: error, warn, info, debug (the default) or trace.")
  private Optional<String> level = Optional.empty();

  /** Carries the command out, with a log if one is asked for. */
  int around(ParseResult parsed, IExecutionStrategy command) {
    if (file.isEmpty() && level.isEmpty()) {
      return command.execute(parsed);
    }
    try (LogFile log = LogFile.begin(named(), word(), parsed.originalArgs())) {
      return logged(log, parsed, command);
    } catch (WrongRequest e) {
      throw new CommandLine.ParameterException(asked(parsed), e.getMessage());
    }
  }

  private static int logged(LogFile log, ParseResult parsed, IExecutionStrategy command) {
    try {
      int code = command.execute(parsed);
      log.tell("ended with exit code " + code);
      return code;
    } catch (ExecutionException e) {
      log.failed(Optional.ofNullable(e.getCause()).orElse(e));
      throw e;
    }
  }

  private Path named() throws WrongRequest {
    return file.orElseThrow(() -> new WrongRequest("--log-level: goes with --log FILE"));
  }

  private String word() throws WrongRequest {
    String word = level.orElse(USUAL).toLowerCase(Locale.ROOT);
    if (!LEVELS.contains(word)) {
      throw new WrongRequest(
          "--log-level: found \""
              + level.orElse("")
              + "\", allowed are "
              + String.join(", ", LEVELS));
    }
    return word;
  }

  private static CommandLine asked(ParseResult parsed) {
    ParseResult last = parsed;
    while (last.hasSubcommand()) {
      last = last.subcommand();
    }
    return last.commandSpec().commandLine();
  }
}
