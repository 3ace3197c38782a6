package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;

/**
 * Makes a record of readings that a person wrote down: setpoint, direction, cycle, reading. How the
 * unit got to each is not seen. Stateless.
 */
final class TypedImport {
  private static final int MOST_CYCLES = 10;

  private TypedImport() {}

  /** What each reading is of; there is one of each. */
  private record Place(double point, Direction from, int cycle) {}

  /** One reading; its setpoint as it was written, and the point that it stands for, % of travel. */
  private record Reading(
      int line,
      CsvSheet.Row row,
      double setpoint,
      double point,
      double milliamps,
      String direction,
      int cycle,
      double value,
      OptionalDouble stem) {
    Place place() {
      Direction from = direction.equals(Direction.UP.text()) ? Direction.UP : Direction.DOWN;
      return new Place(point, from, cycle);
    }

    Reading at(double other) {
      return new Reading(line, row, setpoint, other, milliamps, direction, cycle, value, stem);
    }
  }

  static RunRecord record(
      CsvSheet sheet, Map<String, Column> columns, ImportSetup given, TestsInFile tests)
      throws FileMistakes {
    Columns.require(sheet, columns, "setpoint", "direction", "reading");
    requireByEye(sheet, given.bench());
    Columns.requireOnly(
        sheet,
        columns,
        List.of("setpoint", "direction", "cycle", "reading", "stem", Columns.SERIAL));
    Columns.requireInstruments(sheet, columns, given.bench());
    Tolerance tolerance =
        new Tolerance(given.bench(), given.unit(), columns.get("setpoint"), sheet);
    List<Double> points = tests.points(given.procedure());
    List<Reading> readings = readings(sheet, columns, given, points, tolerance);
    AskedProcedure asked = AskedProcedure.of(given, () -> inferred(tests, readings), sheet.name());
    Procedure procedure = asked.procedure();
    if (procedure.tests().isEmpty()) {
      throw CsvSheet.mistake(
          sheet.file(), 0, "", "a travel error needs two setpoints or more, within 0 to 100 %");
    }
    List<String> near = tolerance.near(readings.stream().map(Reading::setpoint).toList(), points);
    ImportJournal journal = new ImportJournal(given, Optional.empty());
    journal.open(
        asked.file(),
        new Event.Imported(
            "readings",
            sheet.name(),
            sheet.sha256(),
            columns.values().stream().map(Column::text).toList(),
            sheet.rows().size(),
            journal.dated(),
            given.procedure().isPresent(),
            tolerance.halfDigit(
                readings.stream().map(Reading::setpoint).toList(),
                readings.stream().map(Reading::point).toList()),
            tolerance.unit(),
            tolerance.measured(),
            notes(sheet, columns, asked, near)));
    CompletenessCheck.tell(journal, sheet, columns, given);
    boolean told = false;
    for (int index = 0; index < procedure.tests().size(); index++) {
      TestSpec test = procedure.tests().get(index);
      Optional<TestInFile.Readings> kind = tests.readings(test);
      if (kind.isPresent() && !told) {
        journal.write(new Event.TestBegan(index, test.name(), 1));
        journal.plan(procedure);
        tell(journal, index, kind.get(), readings, columns, given);
        Optional<String> rounded =
            DigitsCheck.tooCoarsely(
                sheet, columns, new Positions(given.bench(), given.unit(), columns), given.bench());
        rounded.ifPresent(r -> journal.fault(RunFault.ROUNDED_READINGS, r));
        String state = rounded.isEmpty() ? "complete" : "void";
        journal.write(new Event.TestEnded(index, test.name(), 1, state, rounded.orElse("")));
        told = true;
      } else {
        journal.notDone(index, test.name(), "readings that were written down don't show it");
      }
    }
    return journal.close();
  }

  private static List<String> notes(
      CsvSheet sheet, Map<String, Column> columns, AskedProcedure asked, List<String> near) {
    List<String> notes = new ArrayList<>(near);
    asked.note().ifPresent(notes::add);
    Columns.unread(sheet, columns).ifPresent(notes::add);
    return notes;
  }

  private static void requireByEye(CsvSheet sheet, BenchFile bench) throws FileMistakes {
    boolean byEye =
        bench.playing(Role.POSITION_TRANSMITTER).map(InstrumentSpec::typedIn).orElse(false);
    if (!byEye) {
      throw CsvSheet.mistake(
          sheet.file(),
          0,
          "",
          "holds readings that a person wrote down; the bench file's position transmitter must be"
              + " speaks = \"typed in\", with the scatter_pct of a reading");
    }
  }

  /** All of them, each at its point. */
  private static List<Reading> readings(
      CsvSheet sheet,
      Map<String, Column> columns,
      ImportSetup given,
      List<Double> asked,
      Tolerance tolerance)
      throws FileMistakes {
    List<Reading> written = new ArrayList<>();
    for (CsvSheet.Row row : sheet.rows()) {
      written.add(reading(sheet, columns, row, given));
    }
    List<Double> ordered = new ArrayList<>(List.of(0.0, 100.0));
    ordered.addAll(asked);
    List<Double> found =
        tolerance.points(
            written.stream()
                .map(Reading::setpoint)
                .filter(s -> tolerance.point(s, ordered).isEmpty())
                .toList());
    List<Reading> readings = new ArrayList<>();
    Map<Place, Integer> lines = new HashMap<>();
    for (Reading each : written) {
      OptionalDouble point = tolerance.point(each.setpoint(), ordered);
      Reading reading =
          each.at(
              point.isPresent()
                  ? point.getAsDouble()
                  : tolerance.point(each.setpoint(), found).orElse(each.setpoint()));
      Integer before = lines.put(reading.place(), reading.line());
      if (before != null) {
        throw sheet.mistake(
            each.row(),
            columns.get("setpoint").index(),
            "is the same setpoint, direction and cycle as line "
                + before
                + "; each may stand there once: give the rows a cycle, or delete one");
      }
      requireWithin(sheet, columns.get("setpoint"), reading);
      readings.add(reading);
    }
    return readings;
  }

  private static void requireWithin(CsvSheet sheet, Column setpoint, Reading reading)
      throws FileMistakes {
    if (!(reading.point() >= 0.0 && reading.point() <= 100.0)) {
      throw sheet.mistake(
          reading.row(),
          setpoint.index(),
          "asks for "
              + Numbers.plain(reading.setpoint())
              + " % of travel; allowed are 0 to 100 %: beyond an end no reading shows an error");
    }
  }

  private static Reading reading(
      CsvSheet sheet, Map<String, Column> columns, CsvSheet.Row row, ImportSetup given)
      throws FileMistakes {
    double setpoint = needed(sheet, columns.get("setpoint"), row);
    double milliamps = setpoint;
    if (columns.get("setpoint").unit().equals("mA")) {
      setpoint = given.unit().positionAt(Current.ofMilliamps(setpoint)).percent();
    } else {
      milliamps = given.unit().currentAt(Position.ofPercent(setpoint)).milliamps();
    }
    double exact = Tolerance.clean(setpoint);
    Column where = columns.get("direction");
    String direction = sheet.cell(row, where.index()).orElse("").toLowerCase(Locale.ROOT);
    if (!direction.equals("up") && !direction.equals("down")) {
      throw sheet.mistake(
          row, where.index(), "\"" + direction + "\" is not a direction; allowed are up, down");
    }
    int cycle = columns.containsKey("cycle") ? cycle(sheet, columns.get("cycle"), row) : 1;
    double value = needed(sheet, columns.get("reading"), row);
    OptionalDouble stem =
        columns.containsKey("stem")
            ? columns.get("stem").number(sheet, row)
            : OptionalDouble.empty();
    return new Reading(row.line(), row, exact, exact, milliamps, direction, cycle, value, stem);
  }

  private static double needed(CsvSheet sheet, Column column, CsvSheet.Row row)
      throws FileMistakes {
    OptionalDouble number = column.number(sheet, row);
    if (number.isEmpty()) {
      String what = sheet.isNaN(row, column.index()) ? "is NaN, not a number" : "is empty";
      throw sheet.mistake(row, column.index(), what + "; delete the row if it was not read");
    }
    return number.getAsDouble();
  }

  private static int cycle(CsvSheet sheet, Column column, CsvSheet.Row row) throws FileMistakes {
    double number = needed(sheet, column, row);
    if (number != Math.rint(number) || number < 1.0 || number > MOST_CYCLES) {
      throw sheet.mistake(
          row,
          column.index(),
          "\"" + Numbers.plain(number) + "\" is not a cycle; allowed are 1 to " + MOST_CYCLES);
    }
    return (int) number;
  }

  private static List<Inferred> inferred(TestsInFile tests, List<Reading> readings) {
    TreeSet<Double> points = new TreeSet<>();
    readings.forEach(r -> points.add(r.point()));
    int cycles = readings.stream().mapToInt(Reading::cycle).max().orElseThrow();
    return tests.inferred(points, cycles);
  }

  private static void tell(
      ImportJournal journal,
      int test,
      TestInFile.Readings kind,
      List<Reading> readings,
      Map<String, Column> columns,
      ImportSetup given) {
    Positions positions = new Positions(given.bench(), given.unit(), columns);
    for (int i = 0; i < readings.size(); i++) {
      Reading r = readings.get(i);
      long at = ImportJournal.nanos(i + 1.0);
      journal.at(i + 1.0);
      Aim aim = kind.aim(r.place().point(), r.place().from(), r.place().cycle());
      journal.begin(test, aim, Leg.ARRIVAL);
      journal.write(new Event.Commanded(r.setpoint(), r.milliamps(), r.milliamps(), at, at));
      journal.write(sampled("position", columns.get("reading"), r, r.value(), positions, at));
      journal.write(
          new Event.Rested(
              aim.words(),
              Leg.ARRIVAL,
              r.setpoint(),
              r.direction(),
              r.cycle(),
              true,
              true,
              at,
              at,
              0.0));
      if (r.stem().isPresent()) {
        double stem = r.stem().getAsDouble();
        journal.write(sampled("stem", columns.get("stem"), r, stem, positions, at));
      }
    }
    journal.endStep();
  }

  private static Event.Sampled sampled(
      String channel, Column column, Reading r, double value, Positions positions, long at) {
    return new Event.Sampled(
        channel,
        value,
        column.unit(),
        positions.quality(channel, value, column.unit()),
        "line " + r.line() + ": " + Numbers.plain(value),
        at,
        at);
  }
}
