package org.benchstroke.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Setting;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.imported.ImportSetup;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options by which {@code judge} takes what others recorded. */
final class CsvGiven {
  private static final int EARLIEST = 1900;
  private static final int LATEST = 2199;

  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description =
          "For a .csv file: the bench file with the accuracies of its instruments (default: what is"
              + " stated).")
  private Optional<String> bench = Optional.empty();

  @Option(
      names = "--unit-type",
      paramLabel = "FILE",
      description = "For a .csv file: the unit type file (default: what is stated).")
  private Optional<String> unitType = Optional.empty();

  @Option(
      names = "--procedure",
      paramLabel = "FILE",
      description = "For a .csv file: the tests it must show (default: any that it shows).")
  private Optional<String> procedure = Optional.empty();

  @Option(
      names = "--column",
      paramLabel = "WHAT=HEADER:UNIT",
      description =
          "For a .csv file: what a column is, such as time=T:s; once for each that the header"
              + " doesn't explain.")
  private List<String> columns = List.of();

  @Option(
      names = "--serial",
      paramLabel = "TEXT",
      description = "For a .csv file: serial number of the unit.")
  private Optional<String> serial = Optional.empty();

  @Option(
      names = "--operator",
      paramLabel = "NAME",
      description = "For a .csv file: who recorded it.")
  private Optional<String> operator = Optional.empty();

  @Option(
      names = "--order",
      paramLabel = "TEXT",
      description = "For a .csv file: the customer's order.")
  private Optional<String> order = Optional.empty();

  @Mixin private JobOptions job;

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
    return bench.isPresent()
        || unitType.isPresent()
        || procedure.isPresent()
        || date != null
        || !columns.isEmpty()
        || serial.isPresent()
        || operator.isPresent()
        || order.isPresent()
        || job.any();
  }

  /**
   * The files by which it is judged.
   *
   * @param procedure only one that was named: what is stated for runs was not asked of a file
   */
  record Files(Path bench, Path unitType, Optional<Path> procedure) {
    /** These files were given, too. */
    OutputFiles given(OutputFiles outputs) {
      return outputs
          .given("bench file", bench)
          .given("unit type file", unitType)
          .given("procedure file", procedure);
    }
  }

  /**
   * The files by which it is judged, as they are named or stated.
   *
   * @param file what was recorded
   */
  Files files(Path file, Defaults stated) throws WrongRequest {
    Optional<Path> b = stated.file(Setting.BENCH, bench);
    Optional<Path> u = stated.file(Setting.UNIT_TYPE, unitType);
    if (b.isEmpty() || u.isEmpty()) {
      throw new WrongRequest(
          file + ": give --bench FILE and --unit-type FILE with it; only a record needs neither");
    }
    Optional<Path> p =
        procedure.isEmpty() ? Optional.empty() : stated.file(Setting.PROCEDURE, procedure);
    return new Files(b.get(), u.get(), p);
  }

  RunRecord record(Path file, Files by) throws WrongRequest, FileMistakes {
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> b = files.bench(by.bench());
    GivenFiles.Given<UnitType> u = files.read(by.unitType(), UnitTypeReader::read);
    Optional<GivenFiles.Given<Procedure>> p =
        by.procedure().map(path -> files.read(path, ProcedureReader::read));
    files.finish();
    ImportSetup given =
        new ImportSetup(
            b.value(),
            b.source(BenchFileReader.KIND),
            u.value(),
            u.source(UnitTypeReader.KIND),
            p.map(GivenFiles.Given::value),
            p.map(each -> each.source(ProcedureReader.KIND)),
            words("--serial", serial),
            words("--operator", operator),
            words("--order", order),
            day(),
            Version.text(),
            job.job());
    return Catalogue.imports().record(file, columns, given);
  }

  private static String words(String option, Optional<String> text) throws WrongRequest {
    if (text.isPresent()) {
      WrongRequest.requireWords(option, text.get());
    }
    return text.orElse("").strip();
  }

  private Optional<LocalDate> day() throws WrongRequest {
    Optional<LocalDate> day = Optional.ofNullable(date);
    if (day.isPresent() && (date.getYear() < EARLIEST || date.getYear() > LATEST)) {
      throw new WrongRequest(
          "--date: found " + date + ", allowed are days from " + EARLIEST + " to " + LATEST);
    }
    return day;
  }
}
