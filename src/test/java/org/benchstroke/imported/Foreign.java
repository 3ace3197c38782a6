package org.benchstroke.imported;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Event;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.tests.RecordedRun;
import org.benchstroke.unit.UnitTypeReader;

/**
 * What a file of others is judged with in tests: the invented benches and the invented unit type of
 * the demo data, with limits of the test's own.
 */
final class Foreign {
  static final String READINGS_BENCH = "demo-data/benches/by-hand.toml";
  static final String TRACE_BENCH = "demo-data/benches/logger.toml";

  private final Path folder;
  private String bench = READINGS_BENCH;
  private String benchText = "";
  private String unit;
  private Optional<String> procedure = Optional.empty();
  private String serial = "SN-1";
  private List<String> columns = List.of();
  private Optional<LocalDate> date = Optional.of(LocalDate.parse("2026-06-01"));

  Foreign(Path folder) {
    this.folder = folder;
    this.unit =
        text("demo-data/unit-types/quarter-turn-15s.toml").replaceAll("(?s)\\[limits].*", "");
    limits("travel_error_pct = 1.0");
  }

  private static String text(String file) {
    try {
      return Files.readString(Path.of(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Of a logger, and not of a person. */
  Foreign logged() {
    bench = TRACE_BENCH;
    return this;
  }

  Foreign bench(String from, String to) {
    benchText = (benchText.isEmpty() ? text(bench) : benchText).replace(from, to);
    return this;
  }

  Foreign unit(String from, String to) {
    unit = unit.replace(from, to);
    return this;
  }

  Foreign limits(String keys) {
    unit = unit.replaceAll("(?s)\\[limits].*", "") + "[limits]\n" + keys + "\n";
    return this;
  }

  Foreign serial(String other) {
    serial = other;
    return this;
  }

  /** Of a day that nobody knows. */
  Foreign undated() {
    date = Optional.empty();
    return this;
  }

  Foreign columns(String... requests) {
    columns = List.of(requests);
    return this;
  }

  /** A travel error test. */
  Foreign travel(String points, int cycles) {
    return tests(
        "[[test]]\ntest = \"travel error\"\npoints_pct = [" + points + "]\ncycles = " + cycles);
  }

  Foreign tests(String tables) {
    procedure =
        Optional.of(
            "kind = \"procedure\"\nformat = 1\nname = \"ordered\"\nversion = \"1\"\n"
                + tables
                + "\n");
    return this;
  }

  JudgedRun judge(List<String> lines) throws FileMistakes {
    return judge(String.join("\n", lines) + "\n");
  }

  JudgedRun judge(String text) throws FileMistakes {
    try {
      Path file = Files.writeString(folder.resolve("foreign.csv"), text);
      return RecordedRun.judge(Catalogue.imports().record(file, columns, given()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private ImportSetup given() throws FileMistakes {
    String ofBench = benchText.isEmpty() ? text(bench) : benchText;
    Optional<TomlDocument> ordered = Optional.empty();
    if (procedure.isPresent()) {
      ordered = Optional.of(TomlDocument.parse("procedure.toml", procedure.get()));
    }
    return new ImportSetup(
        BenchFileReader.read(TomlDocument.parse("bench.toml", ofBench)),
        new Event.SourceFile(BenchFileReader.KIND, "bench.toml", ofBench),
        UnitTypeReader.read(TomlDocument.parse("unit.toml", unit)),
        new Event.SourceFile(UnitTypeReader.KIND, "unit.toml", unit),
        ordered.isPresent() ? Optional.of(ProcedureReader.read(ordered.get())) : Optional.empty(),
        procedure.map(p -> new Event.SourceFile(ProcedureReader.KIND, "procedure.toml", p)),
        serial,
        "invented",
        "none",
        date,
        "benchstroke test");
  }
}
