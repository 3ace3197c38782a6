package org.benchstroke.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.UnitType;
import org.benchstroke.bench.UnitTypeReader;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.imported.CsvImport;
import org.benchstroke.imported.Given;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.ProcedureReader;
import org.benchstroke.record.RunRecord;
import picocli.CommandLine.Option;

/** The options by which {@code judge} takes what others recorded. */
final class CsvGiven {
  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description = "For a .csv file: the bench file with the accuracies of its instruments.")
  private Path bench;

  @Option(
      names = "--unit-type",
      paramLabel = "FILE",
      description = "For a .csv file: the unit type file.")
  private Path unitType;

  @Option(
      names = "--procedure",
      paramLabel = "FILE",
      description = "For a .csv file: what it must show (default: what it shows is judged).")
  private Path procedure;

  @Option(
      names = "--column",
      paramLabel = "WHAT=HEADER:UNIT",
      description =
          "For a .csv file: what a column is, such as time=T:s; once for each that the header"
              + " doesn't explain.")
  private List<String> columns = List.of();

  @Option(names = "--serial", description = "For a .csv file: serial number of the unit.")
  private String serial = "";

  @Option(names = "--operator", description = "For a .csv file: who recorded it.")
  private String operator = "";

  @Option(names = "--order", description = "For a .csv file: the customer's order.")
  private String order = "";

  @Option(
      names = "--date",
      paramLabel = "YYYY-MM-DD",
      description = "For a .csv file without a date: the day of the recording.")
  private LocalDate date;

  static boolean isCsv(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    return name.endsWith(".csv") || name.endsWith(".txt") || name.endsWith(".tsv");
  }

  /** Whether anything was given that a record doesn't take. */
  boolean any() {
    return bench != null
        || unitType != null
        || procedure != null
        || date != null
        || !columns.isEmpty()
        || !(serial + operator + order).isEmpty();
  }

  RunRecord record(Path file) throws WrongRequest, FileMistakes {
    if (bench == null || unitType == null) {
      throw new WrongRequest(
          file + ": is judged with --bench FILE and --unit-type FILE; a record needs neither");
    }
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> b = files.read(bench, BenchFileReader::read);
    GivenFiles.Given<UnitType> u = files.read(unitType, UnitTypeReader::read);
    Optional<GivenFiles.Given<Procedure>> p =
        Optional.ofNullable(procedure).map(path -> files.read(path, ProcedureReader::read));
    files.finish();
    Given given =
        new Given(
            b.value(),
            b.source(BenchFileReader.KIND),
            u.value(),
            u.source(UnitTypeReader.KIND),
            p.map(GivenFiles.Given::value),
            p.map(each -> each.source(ProcedureReader.KIND)),
            serial,
            operator,
            order,
            Optional.ofNullable(date),
            Version.text());
    return CsvImport.record(file, columns, given);
  }
}
