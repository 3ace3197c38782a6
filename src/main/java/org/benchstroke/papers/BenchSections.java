package org.benchstroke.papers;

import static org.benchstroke.papers.ReportPages.orDash;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.record.Event;

/** The parts of a report about the bench and what the report rests on. Stateless. */
final class BenchSections {
  private BenchSections() {}

  static Section instruments(JudgedRun run) {
    LocalDate day = ReportPages.began(run).atZone(ZoneOffset.UTC).toLocalDate();
    List<List<Cell>> rows = new ArrayList<>();
    for (InstrumentSpec instrument : run.bench().instruments()) {
      rows.add(
          List.of(
              Cell.noted(instrument.name(), roles(instrument)),
              Cell.noted(
                  orDash((instrument.maker() + " " + instrument.model()).strip()),
                  instrument.serial().isBlank() ? "" : "serial " + instrument.serial()),
              Cell.noted(orDash(instrument.calibration().certificate()), calibratedBy(instrument)),
              Cell.name(instrument.calibration().calibrated().toString(), ""),
              due(instrument.calibration().due(), day),
              identity(run, instrument)));
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(
        new Block.Grid(
            "Instruments of the bench as its file describes them",
            List.of(
                "Instrument, role",
                "Maker, model, serial",
                "Certificate",
                "Calibrated",
                "Due",
                "Identity"),
            rows));
    blocks.add(ErrorSources.grid(run));
    if (run.bench().sourceReadsItself()) {
      blocks.add(
          new Block.Paragraph(
              "The signal source also reads the loop back: an error of its own can't be seen here.",
              true));
    }
    return new Section("Instruments", blocks);
  }

  private static String calibratedBy(InstrumentSpec instrument) {
    String laboratory = instrument.calibration().laboratory();
    return laboratory.isEmpty() ? "laboratory not stated" : laboratory;
  }

  private static String roles(InstrumentSpec instrument) {
    return instrument.roles().stream().map(Role::key).collect(Collectors.joining(", "));
  }

  /** What must be seen at once: an instrument past its due date, an instrument that is another. */
  static List<String> notices(JudgedRun run) {
    LocalDate day = ReportPages.began(run).atZone(ZoneOffset.UTC).toLocalDate();
    List<String> notices = new ArrayList<>();
    for (InstrumentSpec instrument : run.bench().instruments()) {
      LocalDate due = instrument.calibration().due();
      if (due.isBefore(day)) {
        notices.add(
            "OVERDUE: the calibration of " + instrument.name() + " was due on " + due + ".");
      }
      LocalDate calibrated = instrument.calibration().calibrated();
      if (run.imported().map(Event.Imported::dated).orElse(false) && day.isBefore(calibrated)) {
        notices.add(
            "CALIBRATED LATER: "
                + instrument.name()
                + " was calibrated on "
                + calibrated
                + ", after the readings.");
      }
      said(run, instrument)
          // One that can't tell who it is has not said that it is another.
          .filter(said -> !said.matches() && !said.found().isEmpty())
          .ifPresent(
              said ->
                  notices.add(
                      "WRONG INSTRUMENT: "
                          + instrument.name()
                          + " is "
                          + said.found()
                          + ", expected "
                          + said.expected()
                          + "."));
    }
    return notices;
  }

  private static Optional<Event.Identified> said(JudgedRun run, InstrumentSpec instrument) {
    return run.record()
        .events(Event.Identified.class)
        .filter(e -> e.instrument().equals(instrument.name()))
        .reduce((first, last) -> last);
  }

  private static Cell due(LocalDate due, LocalDate day) {
    return due.isBefore(day) ? Cell.alarm(due + " – OVERDUE") : Cell.name(due.toString(), "");
  }

  private static Cell identity(JudgedRun run, InstrumentSpec instrument) {
    Optional<Event.Identified> said = said(run, instrument);
    if (said.isEmpty()) {
      return Cell.text("not asked");
    }
    if (said.get().found().isBlank()) {
      return Cell.text("can't tell");
    }
    return said.get().matches()
        ? Cell.text("confirmed")
        : Cell.alarm("DIFFERS: " + said.get().found());
  }

  static Section preflight(JudgedRun run) {
    List<List<Cell>> rows =
        run.record()
            .events(Event.Checked.class)
            .map(
                c ->
                    List.of(
                        Cell.text(c.check()),
                        c.outcome().equals("ok") ? Cell.text("ok") : Cell.alarm(c.outcome()),
                        Cell.text(orDash(c.detail()))))
            .toList();
    Section all =
        Section.of(
            "Preflight",
            new Block.Grid(
                "Checks before anything was moved", List.of("Check", "Outcome", "Detail"), rows),
            new Block.Paragraph("No check was recorded.", true));
    boolean sound =
        run.record().events(Event.Checked.class).allMatch(c -> c.outcome().equals("ok"));
    return sound && !rows.isEmpty() ? all.askedFor() : all;
  }

  static Section basis(JudgedRun run) {
    List<String> notes = new ArrayList<>();
    notes.add(
        "Uncertainty: JCGM 100:2008; coverage 95 %, k from the shape of the inputs and the"
            + " effective degrees of freedom (Welch–Satterthwaite). The unit's dead band is a"
            + " property of the unit and no part of U.");
    notes.add(
        "Statements of conformity: the decision rule above; pass, conditional pass, conditional"
            + " fail and fail as in ILAC-G8:09/2019 4.2.3. A measure without a limit isn't judged,"
            + " and that is never a pass.");
    notes.add(
        "Span: 0 % is the closed end of the calibrated span and 100 % its open end; 0 % by the"
            + " feedback doesn't mean that the valve is shut.");
    notes.add(
        "Results belong to the unit named here, as it was at the time of the test, and to no"
            + " other.");
    notes.add("Gaps in the readings are left open in tables and plots; nothing is interpolated.");
    notes.add("This report makes no claim of accreditation.");
    if (run.simulated()) {
      notes.add("Simulated: this report can't serve as a certificate.");
    }
    return new Section("Basis", List.of(new Block.Bullets(notes)));
  }
}
