package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Archiving;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.Ground;
import org.benchstroke.app.Outcome;
import org.benchstroke.app.Reports;
import org.benchstroke.app.RunRequest;
import org.benchstroke.app.Session;
import org.benchstroke.app.Watcher;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.RecordReader;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunResult;
import org.benchstroke.run.StopSwitch;
import picocli.CommandLine.Model.CommandSpec;

/** A session at the terminal: what {@code run} and {@code demo} both do. */
final class TerminalRun {
  /** What stands on the standard output. */
  enum Form {
    /** What people read. */
    TEXT,
    /** The judgement, at the end. */
    JSON,
    /** What happens, line by line. */
    JSON_LINES
  }

  private final CommandSpec spec;
  private final RunRequest request;
  private final Optional<ArchivePlace> archive;
  private final boolean unattended;
  private final Form form;
  private final Shown err;

  /** Where people read what happens; nothing, where a program reads the result. */
  private final Shown out;

  /** Where a person is asked. */
  private final Shown talk;

  /**
   * For the command that is asked for it.
   *
   * @param archive where the run goes when it has ended, if anywhere
   * @param unattended whether the cautions answer themselves
   * @param form what stands on the standard output; nothing else does
   */
  TerminalRun(
      CommandSpec spec,
      RunRequest request,
      Optional<ArchivePlace> archive,
      boolean unattended,
      Form form) {
    this.archive = archive;
    this.spec = spec;
    this.request = request;
    this.unattended = unattended;
    this.form = form;
    this.err = Shown.err(spec);
    this.out = form == Form.TEXT ? Shown.out(spec) : Shown.nothing();
    this.talk = form == Form.TEXT ? out : err;
  }

  /**
   * Runs, judges and reports; gives the exit code.
   *
   * @param seenTo the record of a run to whose unit the operator saw
   */
  int carryOut(Optional<Path> seenTo)
      throws FileMistakes, WrongRequest, IOException, RecordReader.NotARecord {
    Session session = allowed(Session.of(request, Version.text()));
    requireAllowed(session);
    Sealing sealing = Sealing.begin(spec, !unattended);
    StopSwitch stop = new StopSwitch();
    try (StopHook hook = StopHook.set(stop, talk, err);
        Ground ground = session.ground(Root.of(spec).clocks(), stop, err::println);
        Tty tty = unattended ? Tty.watched() : Tty.forKeys()) {
      hook.lastly(tty::close);
      if (seenTo.isPresent()) {
        Path noted = session.note(seenTo.get(), ground.clock().utc());
        err.println("Noted that you have seen to that unit: " + noted);
      }
      session.warnings().forEach(err::println);
      Outcome outcome = run(session, ground, stop, tty, sealing);
      return outcome.result().recorded() ? reported(outcome, tty, sealing) : lost(outcome);
    }
  }

  /** Where a supervisor must allow it, a person is asked who does. */
  private Session allowed(Session session) throws IOException, WrongRequest {
    if (!session.wantsSupervisor()) {
      return session;
    }
    Optional<String> named =
        new AskedFor(spec, form != Form.TEXT, !unattended).supervisor(session.earlierAttempts());
    return named.isPresent() ? session.allowedBy(named.get()) : session;
  }

  private void requireAllowed(Session session) throws WrongRequest {
    if (!unattended) {
      Input.of(spec).requirePerson(session.simulated());
      return;
    }
    String bench = request.bench().map(Path::toString).orElse("");
    if (!session.simulated()) {
      throw HandOptions.realBench(bench);
    }
    if (session.plan().bench().instruments().stream().anyMatch(InstrumentSpec::typedIn)) {
      throw new WrongRequest(
          bench
              + ": --unattended leaves nobody to read the instrument that is \"typed in\"; run it"
              + " without");
    }
  }

  private Outcome run(Session session, Ground ground, StopSwitch stop, Tty tty, Sealing sealing)
      throws IOException, WrongRequest {
    BenchClock clock = ground.clock();
    Operator operator =
        unattended
            ? new UnattendedOperator(out, tty::width)
            : new ConsoleOperator(Input.of(spec), talk, tty, clock, stop);
    double scale = request.timeScale().orElse(clock.pace());
    RunScreen screen = new RunScreen(out, Terminals.isThere(), scale, tty::width);
    Watcher watcher =
        form == Form.JSON_LINES
            ? new Watcher("the standard output", new RunLines(Shown.out(spec)))
            : new Watcher("the terminal", screen);
    Outcome outcome = session.run(ground, operator, List.of(watcher), stop, sealing::seal);
    screen.end();
    tellEnd(outcome, tty.width());
    request.capture().ifPresent(folder -> out.println("Transcripts: " + folder));
    return outcome;
  }

  private void tellEnd(Outcome outcome, int columns) {
    RunResult result = outcome.result();
    outcome.leftOut().forEach(each -> err.println("WARNING: " + each));
    out.println();
    out.println(Wrapped.text("Safe signal: " + result.safe().detail(), columns, 2));
    if (result.sourced() && !result.safe().confirmed()) {
      Cautions.show(out, Caution.LINK_LOST, columns);
    }
    if (result.nominalSeconds() > 0) {
      String overhead =
          "Overhead: the tests took "
              + Numbers.fixed(result.testSeconds(), 0)
              + " s of bench time, "
              + Numbers.fixed(result.testSeconds() / result.nominalSeconds(), 2)
              + " × the unit's own motion and rest ("
              + Numbers.fixed(result.nominalSeconds(), 0)
              + " s)";
      out.println(Wrapped.text(overhead, columns, 2));
    }
    out.flush();
  }

  /** What there is of it is not judged here: the disk that lost the record would take no report. */
  private int lost(Outcome outcome) {
    Path record = outcome.files().record();
    err.println("The run was ended: " + outcome.result().reason() + ".");
    err.println("Safe signal: " + outcome.result().safe().detail());
    if (form == Form.JSON_LINES) {
      new RunLines(Shown.out(spec)).lost(outcome.result().reason(), ExitCode.NOT_COMPLETED);
    }
    err.println(
        "Put that right, or name another place with --records, and run again."
            + (Files.exists(record) ? " What was written before that is in " + record + "." : ""));
    return ExitCode.NOT_COMPLETED;
  }

  private int reported(Outcome outcome, Tty tty, Sealing sealing)
      throws RecordReader.NotARecord, FileMistakes, IOException {
    TwinAndCauses aids = Reports.write(outcome.files());
    sealing.sealJudgement(outcome.files().record(), outcome.files().json());
    if (form == Form.JSON) {
      Shown.out(spec).print(new JsonReport().json(aids));
      Shown.out(spec).flush();
    } else if (form == Form.JSON_LINES) {
      new RunLines(Shown.out(spec)).judged(aids.run(), ExitCode.of(aids.run()), outcome.files());
    }
    new VerdictScreen(out, tty.knownWidth()).tell(aids);
    out.println();
    out.println("Report:  " + outcome.files().report());
    out.println("Record:  " + outcome.files().record());
    out.flush();
    archive.ifPresent(
        place -> Archiving.afterRun(place, outcome.files().record(), aids).forEach(err::println));
    return ExitCode.of(aids.run());
  }
}
