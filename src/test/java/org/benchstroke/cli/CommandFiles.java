package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Commands that other packages' tests want the files of. */
public final class CommandFiles {
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");

  private CommandFiles() {}

  /** A sealed run of a simulation of which everything is stated that can be; its record. */
  public static Path runWithEveryFact(Path records) throws IOException {
    Command run =
        Command.run(
            "run",
            "--simulation",
            "simulators/healthy-b.toml",
            "--unattended",
            "--procedure",
            "demo-data/procedures/short-check.toml",
            "--serial",
            "QT-1",
            "--operator",
            "Ann",
            "--order",
            "PO 1",
            "--customer",
            "Invented Pumps",
            "--ambient-c",
            "21.5",
            "--humidity-pct",
            "40",
            "--tag",
            "LV-1",
            "--actuator-maker",
            "Invented",
            "--actuator-model",
            "QT",
            "--valve-maker",
            "Invented",
            "--valve-model",
            "V",
            "--valve-serial",
            "V-1",
            "--received",
            "2026-05-30",
            "--records",
            records);
    assertThat(run.err()).isEmpty();
    try (Stream<Path> files = Files.list(records)) {
      return files.filter(f -> f.toString().endsWith(".jsonl")).findFirst().orElseThrow();
    }
  }

  /** The judgement of a record after a label was amended. */
  public static String amended(Path record) {
    Command amend =
        Command.run(
            "amend",
            record,
            "--field",
            "tag",
            "--to",
            "LV-2",
            "--by",
            "Ann",
            "--reason",
            "misread");
    assertThat(amend.err()).isEmpty();
    return Command.run("judge", record, "--json").out();
  }

  /** The judgement of written readings; their record goes to the file. */
  public static String readings(Path record) {
    return json("demo-data/recorded/readings.csv", "demo-data/benches/by-hand.toml", record);
  }

  /** The judgement of a logger's trace; its record goes to the file. */
  public static String trace(Path record) {
    return json("demo-data/recorded/trace.csv", "demo-data/benches/logger.toml", record);
  }

  private static String json(String csv, String bench, Path record) {
    Command judge =
        Command.run(
            "judge",
            csv,
            "--bench",
            bench,
            "--unit-type",
            UNIT,
            "--date",
            "2026-06-01",
            "--record",
            record,
            "--json");
    assertThat(judge.err()).isEmpty();
    return judge.out();
  }
}
