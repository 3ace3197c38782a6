package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * Makes a record of a trace that others recorded: setpoint and position over time. Rest is found by
 * the rule of a run. Whatever is damaged voids the test that spans it. Stateless.
 */
final class TraceImport {
  private TraceImport() {}

  static RunRecord record(
      CsvSheet sheet, Map<String, Column> columns, ImportSetup given, TestsInFile tests)
      throws FileMistakes {
    Columns.require(sheet, columns, "time", "setpoint", "position");
    Columns.requireInstruments(sheet, columns, given.bench());
    TraceRows trace = TraceRows.of(sheet, columns, given.unit());
    Tolerance tolerance =
        new Tolerance(given.bench(), given.unit(), columns.get("setpoint"), sheet);
    List<Plateau> plateaus = Plateau.of(trace.rows(), tolerance::at);
    Positions positions = new Positions(given.bench(), given.unit(), columns);
    RestFinder finder = new RestFinder(given.bench(), given.unit(), positions, plateaus.get(0));
    List<Double> points = tests.points(given.procedure());
    Plateaus file =
        Plateaus.of(
            plateaus,
            points,
            given.procedure().isPresent(),
            given.unit(),
            tolerance,
            positions,
            finder);
    AskedProcedure asked = AskedProcedure.of(given, () -> tests.inferred(file), sheet.name());
    Procedure procedure = asked.procedure();
    if (procedure.tests().isEmpty()) {
      throw CsvSheet.mistake(
          sheet.file(),
          0,
          "",
          "shows neither full strokes nor rests at setpoints; its setpoints are "
              + some(file.points())
              + " % of travel");
    }
    ImportJournal journal = new ImportJournal(given, trace.first());
    Optional<String> rounded = DigitsCheck.tooCoarsely(sheet, columns, positions, given.bench());
    List<String> notes = notes(sheet, columns, asked);
    notes.addAll(tolerance.near(file.points(), points));
    journal.open(
        asked.file(),
        new Event.Imported(
            "trace",
            sheet.name(),
            sheet.sha256(),
            columns.values().stream().map(Column::text).toList(),
            sheet.rows().size(),
            journal.dated(),
            given.procedure().isPresent(),
            tolerance.halfDigit(file.written(), file.points()),
            tolerance.unit(),
            tolerance.measured(),
            notes));
    String noise = Numbers.significant(finder.noisePercent(), 2) + " % taken for the rest rule";
    journal.check(
        CheckNames.NOISE_AT_REST,
        "ok",
        noise,
        Map.of(CheckNames.DEVIATION_PERCENT, finder.noisePercent()));
    CompletenessCheck.tell(journal, sheet, columns, given);
    FoundTests found = FoundTests.of(tests.finders(procedure, file));
    new TraceWriter(journal, given, columns, trace, file, finder.limitPercent(), found, rounded)
        .tell(procedure);
    return journal.close();
  }

  private static String some(List<Double> setpoints) {
    List<String> texts =
        setpoints.stream().map(s -> Numbers.fixed(s, 2)).distinct().limit(8).toList();
    return String.join(", ", texts);
  }

  private static List<String> notes(
      CsvSheet sheet, Map<String, Column> columns, AskedProcedure asked) {
    List<String> notes = new ArrayList<>(asked.note().stream().toList());
    boolean onChange = columns.get("setpoint").onChange(sheet);
    if (onChange) {
      notes.add("The setpoint is written only where it changes; each holds until the next.");
    }
    String empty =
        columns.values().stream()
            .filter(c -> empty(sheet, c) > 0 && !(onChange && c.what().equals("setpoint")))
            .map(c -> c.what() + " " + empty(sheet, c))
            .collect(Collectors.joining(", "));
    if (!empty.isEmpty()) {
      notes.add("Empty cells, of " + sheet.rows().size() + " rows: " + empty + ".");
    }
    columns.values().forEach(c -> notANumber(sheet, c).ifPresent(notes::add));
    Columns.unread(sheet, columns).ifPresent(notes::add);
    return notes;
  }

  private static Optional<String> notANumber(CsvSheet sheet, Column column) {
    List<CsvSheet.Row> rows =
        sheet.rows().stream().filter(r -> sheet.isNaN(r, column.index())).toList();
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "Not a number (NaN), in column "
                + CsvSheet.shown(column.name())
                + ": line "
                + rows.get(0).line()
                + (rows.size() == 1 ? "" : " and " + (rows.size() - 1) + " more")
                + "; nothing was read there.");
  }

  private static long empty(CsvSheet sheet, Column column) {
    return sheet.rows().stream()
        .filter(r -> sheet.cell(r, column.index()).isEmpty() && !sheet.isNaN(r, column.index()))
        .count();
  }
}
