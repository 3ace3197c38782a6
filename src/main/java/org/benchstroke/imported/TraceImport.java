package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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

  static RunRecord record(CsvSheet sheet, Map<String, Column> columns, ImportSetup given)
      throws FileMistakes {
    Columns.require(sheet, columns, "time", "setpoint", "position");
    Columns.requireInstruments(sheet, columns, given.bench());
    TraceRows trace = TraceRows.of(sheet, columns, given.unit());
    Tolerance tolerance =
        new Tolerance(given.bench(), given.unit(), columns.get("setpoint"), sheet);
    List<Plateau> plateaus = Plateau.of(trace.rows(), tolerance::at);
    Positions positions = new Positions(given.bench(), given.unit(), columns);
    RestFinder finder = new RestFinder(given.bench(), given.unit(), positions, plateaus.get(0));
    List<Double> setpoints = points(plateaus, given.procedure(), tolerance);
    List<RestFinder.Found> rests = new ArrayList<>();
    for (int i = 0; i < plateaus.size(); i++) {
      double from =
          i == 0
              ? seen(plateaus.get(0), positions).findFirst().orElse(setpoints.get(0))
              : from(plateaus, setpoints, positions, i - 1);
      rests.add(finder.find(plateaus.get(i), setpoints.get(i), from, direction(setpoints, i)));
    }
    TestFinder placing =
        new TestFinder(
            setpoints, rests, new Sequences(plateaus, setpoints, given.unit(), tolerance));
    Procedure procedure =
        given
            .procedure()
            .orElseGet(() -> InferredProcedure.of(sheet.name(), setpoints, rests, placing));
    if (procedure.tests().isEmpty()) {
      throw CsvSheet.mistake(
          sheet.file(),
          0,
          "",
          "shows neither full strokes nor rests at setpoints; its setpoints are "
              + some(setpoints)
              + " % of travel");
    }
    ImportJournal journal = new ImportJournal(given, trace.first());
    Optional<String> rounded = DigitsCheck.tooCoarsely(sheet, columns, positions, given.bench());
    List<String> notes = notes(sheet, columns, given, procedure);
    notes.addAll(tolerance.near(setpoints, Tolerance.asked(given.procedure())));
    journal.open(
        ImportJournal.procedureFile(given, procedure, sheet.name()),
        new Event.Imported(
            "trace",
            sheet.name(),
            sheet.sha256(),
            columns.values().stream().map(Column::text).toList(),
            sheet.rows().size(),
            journal.dated(),
            given.procedure().isPresent(),
            tolerance.halfDigit(plateaus.stream().map(Plateau::percent).toList(), setpoints),
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
    new TraceWriter(
            journal, given, columns, trace, plateaus, setpoints, rests, finder, placing, rounded)
        .tell(procedure);
    return journal.close();
  }

  /** Where a unit sets out: at the setpoint before; where that is none, where it was last seen. */
  private static double from(
      List<Plateau> plateaus, List<Double> setpoints, Positions positions, int before) {
    double setpoint = setpoints.get(before);
    boolean none = setpoint < 0.0 || setpoint > 100.0;
    return none
        ? seen(plateaus.get(before), positions).reduce((first, last) -> last).orElse(setpoint)
        : setpoint;
  }

  private static Stream<Double> seen(Plateau plateau, Positions positions) {
    return plateau.rows().stream().filter(TraceRows.Row::positioned).map(positions::percent);
  }

  static String direction(List<Double> setpoints, int index) {
    if (index == 0) {
      return "none";
    }
    return setpoints.get(index) > setpoints.get(index - 1) ? "up" : "down";
  }

  /** The point that each plateau's setpoint stands for; where it is none, the setpoint itself. */
  private static List<Double> points(
      List<Plateau> plateaus, Optional<Procedure> procedure, Tolerance tolerance) {
    TreeSet<Double> ordered = new TreeSet<>(List.of(0.0, 100.0));
    ordered.addAll(Tolerance.asked(procedure));
    List<Double> of = List.copyOf(ordered);
    List<Double> others =
        plateaus.stream()
            .map(Plateau::percent)
            .filter(p -> procedure.isEmpty() && tolerance.point(p, of).isEmpty())
            .toList();
    List<Double> found = tolerance.points(others);
    List<Double> points = new ArrayList<>();
    for (Plateau plateau : plateaus) {
      OptionalDouble point = tolerance.point(plateau.percent(), of);
      OptionalDouble shared = point.isPresent() ? point : tolerance.point(plateau.percent(), found);
      points.add(shared.orElse(plateau.percent()));
    }
    return points;
  }

  private static String some(List<Double> setpoints) {
    List<String> texts =
        setpoints.stream().map(s -> Numbers.fixed(s, 2)).distinct().limit(8).toList();
    return String.join(", ", texts);
  }

  private static List<String> notes(
      CsvSheet sheet, Map<String, Column> columns, ImportSetup given, Procedure procedure) {
    List<String> notes = new ArrayList<>();
    if (given.procedure().isEmpty()) {
      notes.add(InferredProcedure.words(procedure));
    }
    boolean onChange = columns.get("setpoint").onChange(sheet);
    if (onChange) {
      notes.add("The setpoint stands only where it changes; each holds until the next.");
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
