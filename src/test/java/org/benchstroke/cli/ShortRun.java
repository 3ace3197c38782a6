package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.simulator.SimulatorServer;

/** The real {@code run} command with a few tests, against a bench that is served. */
final class ShortRun {
  static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");

  /** A busy machine is not what is looked at. */
  private static final String PRACTICE = "[practice]\ngap_periods = 10\nattempts = 5\n";

  private ShortRun() {}

  /**
   * Runs.
   *
   * @param tests tables {@code [[test]]}
   * @param limits the keys of {@code [limits]}: what is tested, and no other
   * @param own a folder for the files and the records, under {@code records}
   */
  static Command of(SimulatorServer server, String tests, String limits, Path own)
      throws IOException {
    String head = "kind = \"procedure\"\nformat = 1\nname = \"Short\"\nversion = \"1\"\n";
    String type = Files.readString(TYPE).replaceAll("(?s)\\[limits].*", "");
    return Command.run(
        Command.runArguments(
            Files.writeString(own.resolve("bench.toml"), server.benchToml()),
            Files.writeString(own.resolve("type.toml"), type + "[limits]\n" + limits + PRACTICE),
            Files.writeString(own.resolve("procedure.toml"), head + tests),
            own.resolve("records")));
  }
}
