package org.benchstroke.imported;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFit;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.CheckNames;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.StepId;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;

/** Collects the lines of the record that a file becomes. One thread. */
final class ImportJournal {
  private static final double NANOS = 1.0e9;

  private final List<Entry> entries = new ArrayList<>();
  private final ImportSetup given;
  private final Optional<Instant> began;
  private Expansion plan = new Expansion(List.of());
  private final Map<StepId, Integer> takes = new HashMap<>();
  private Optional<StepId> step = Optional.empty();
  private double seconds;

  ImportJournal(ImportSetup given, Optional<Instant> began) {
    this.given = given;
    this.began = began.or(() -> given.date().map(d -> d.atStartOfDay(ZoneOffset.UTC).toInstant()));
  }

  static long nanos(double seconds) {
    return Math.round(seconds * NANOS);
  }

  boolean dated() {
    return began.isPresent();
  }

  /** The time that the lines to come bear, s since the first row. */
  void at(double now) {
    seconds = now;
  }

  /** The procedure by which the file is judged, expanded. */
  void plan(Procedure procedure) {
    plan = Expansion.of(procedure, given.unit(), given.bench().samplePeriodSeconds());
  }

  /** What is written from now on belongs to the step of a test that has this aim. */
  void begin(int test, Aim aim, Leg leg) {
    List<Aim> aims = plan.tests().get(test).actions().stream().map(Action::aim).toList();
    int at = aims.indexOf(aim);
    if (at < 0) {
      step = Optional.empty();
      return;
    }
    StepId first = new StepId(test, 1, at, 1);
    int take = takes.merge(first, leg == Leg.STAIR ? 0 : 1, Integer::sum);
    step = Optional.of(first.take(Math.max(1, take)));
  }

  /** What is written from now on belongs to no step. */
  void endStep() {
    step = Optional.empty();
  }

  void write(Event event) {
    long nanos = nanos(seconds);
    Instant utc = began.orElse(Instant.EPOCH).plusNanos(nanos);
    entries.add(new Entry(entries.size() + 1L, nanos, utc, step, event));
  }

  void open(Event.SourceFile procedureFile, Event.Imported imported) {
    write(
        new Event.Opened(
            Event.FORMAT,
            given.tool(),
            given.bench().simulation().map(s -> s.shows()).orElse(""),
            1.0,
            given.serial(),
            given.operator(),
            given.order(),
            ZoneOffset.UTC.getId(),
            List.of(given.benchFile(), given.unitFile(), procedureFile)));
    write(imported);
    given.job().ifPresent(this::write);
    dueDates();
    accuracyRatio();
  }

  void fault(RunFault fault, String detail) {
    write(new Event.Faulted(fault, "", detail));
  }

  void check(String check, String outcome, String detail, Map<String, Double> values) {
    write(new Event.Checked(check, outcome, detail, values));
  }

  /** A test that the file doesn't show. */
  void notDone(int index, String test, String why) {
    write(new Event.TestEnded(index, test, 1, "not done", why));
  }

  RunRecord close() {
    write(new Event.Closed("complete", "the whole file was read", seconds));
    return new RunRecord(entries, List.of());
  }

  private void dueDates() {
    for (InstrumentSpec spec : given.bench().instruments()) {
      String name = CheckNames.calibration(spec.name());
      LocalDate due = spec.calibration().due();
      String certificate = "certificate " + spec.calibration().certificate();
      Optional<LocalDate> day = began.map(b -> LocalDate.ofInstant(b, ZoneOffset.UTC));
      if (day.isEmpty()) {
        String why = ", due " + due + ", not checked: the file has no date; give --date";
        check(name, "blocks", certificate + why, Map.of());
      } else {
        Optional<String> uncovered = spec.calibration().uncovered(day.get());
        check(
            name,
            uncovered.isPresent() ? "blocks" : "ok",
            certificate + uncovered.map(why -> " " + why).orElse(", due " + due),
            Map.of());
      }
    }
  }

  private void accuracyRatio() {
    Optional<Limit> limit = given.unit().limit(MeasureKind.TRAVEL_ERROR);
    if (limit.isEmpty()) {
      check(
          CheckNames.ACCURACY_RATIO, "warning", "no limit on the travel error is stated", Map.of());
      return;
    }
    BenchFit.AccuracyRatio found = new BenchFit(given.bench(), given.unit()).ratio(limit.get());
    double ratio = found.ratio();
    String outcome =
        switch (given.unit().practice().grade(ratio)) {
          case REFUSED -> "blocks";
          case LOW -> "warning";
          case GOOD -> "ok";
        };
    check(
        CheckNames.ACCURACY_RATIO,
        outcome,
        found.text(),
        Map.of(CheckNames.RATIO, ratio, CheckNames.U_PERCENT, found.uncertaintyPercent()));
  }
}
