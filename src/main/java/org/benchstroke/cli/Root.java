package org.benchstroke.cli;

import java.util.function.Function;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;

/**
 * What is above all commands: where they find what they were given. The commands themselves are in
 * {@link Commands}.
 */
@Command(
    name = "benchstroke",
    description = {
      "Proves a motorised valve actuator on the bench: steps a signal source through setpoints,"
          + " reads the position back, judges what it measured with its uncertainty, and leaves a"
          + " record and a report.",
      ""
    },
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Start with:  benchstroke demo",
      "Exit codes:  0 passed, 1 judged and not passed, 2 the request was wrong,",
      "             3 the test could not be completed"
    })
final class Root implements Runnable {
  @CommandLine.Spec private CommandSpec spec;

  private final Input input;
  private final Function<BenchFile, BenchClock> clocks;
  private final KeyPlace keys;
  private final Surroundings around;

  /**
   * With what every command is given.
   *
   * @param clocks gives the clock of a bench
   * @param keys where its key is
   * @param around what is stated around it
   */
  Root(Input input, Function<BenchFile, BenchClock> clocks, KeyPlace keys, Surroundings around) {
    this.input = input;
    this.clocks = clocks;
    this.keys = keys;
    this.around = around;
  }

  /** A command's. */
  static Root of(CommandSpec spec) {
    return (Root) spec.root().userObject();
  }

  Input input() {
    return input;
  }

  /** What gives the clock by which a command goes on a bench. */
  Function<BenchFile, BenchClock> clocks() {
    return clocks;
  }

  KeyPlace keys() {
    return keys;
  }

  Surroundings surroundings() {
    return around;
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }
}
