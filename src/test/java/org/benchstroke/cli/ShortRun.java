package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;

/**
 * The real {@code run} command with a few tests, against a bench that is served.
 *
 * @param run how it ended
 * @param file its record's file
 * @param record what that holds
 */
record ShortRun(Command run, Path file, RunRecord record) {
  static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");

  /** A busy machine is not what is looked at. */
  static final String PATIENT = "[practice]\ngap_periods = 10\nattempts = 5\n";

  /** The same with all patience that can be had, where the program is a process of its own. */
  static final String VERY_PATIENT = "[practice]\ngap_periods = 100\nattempts = 10\n";

  /** A bench file's text with time for a busy machine to answer. */
  static String patient(String bench) {
    return bench.replaceAll("reply_timeout_ms = \\d+", "reply_timeout_ms = 10000");
  }

  /**
   * Runs by the clock of whoever serves the bench.
   *
   * @param bench the text of the bench file
   * @param tests tables {@code [[test]]}
   * @param limits the keys of {@code [limits]}: what is tested, and no other; then other tables
   * @param own a folder for the files and the records, under {@code records}
   */
  static ShortRun of(BenchClock clock, String bench, String tests, String limits, Path own)
      throws Exception {
    Path file = Files.writeString(own.resolve("bench.toml"), bench);
    return of(arguments -> Command.run(clock, arguments), file, tests, limits, own);
  }

  /** Runs against a bench that is served by another process. */
  static ShortRun of(Path bench, String tests, String limits, Path own) throws Exception {
    return of(Command::run, bench, tests, limits, own);
  }

  private static ShortRun of(
      Function<Object[], Command> way, Path bench, String tests, String limits, Path own)
      throws Exception {
    String head = "kind = \"procedure\"\nformat = 1\nname = \"Short\"\nversion = \"1\"\n";
    String type = Files.readString(TYPE).replaceAll("(?s)\\[limits].*", "");
    Path records = own.resolve("records");
    Command run =
        way.apply(
            Command.runArguments(
                bench,
                Files.writeString(own.resolve("type.toml"), type + "[limits]\n" + limits),
                Files.writeString(own.resolve("procedure.toml"), head + tests),
                records));
    Path file = recordIn(records);
    return new ShortRun(run, file, RecordReader.read(file));
  }

  /** The one record of a folder. */
  static Path recordIn(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(f -> f.toString().endsWith(".jsonl")).findFirst().orElseThrow();
    }
  }

  int code() {
    return run.code();
  }

  /** All that it said, to people and of mistakes. */
  String said() {
    return run.out() + run.err();
  }

  List<String> faults() {
    return record.events(Event.Faulted.class).map(f -> f.fault().toString()).toList();
  }

  /** Of its attempts at tests. */
  List<String> outcomes() {
    return record.events(Event.TestEnded.class).map(Event.TestEnded::outcome).toList();
  }

  /** How it was made safe, each time. */
  List<Event.MadeSafe> madeSafe() {
    return record.events(Event.MadeSafe.class).toList();
  }
}
