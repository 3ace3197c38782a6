package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;
import org.benchstroke.record.FileJournal;
import org.benchstroke.record.RecordReader;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunPlan;
import org.benchstroke.run.RunResult;
import org.benchstroke.run.Runner;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.Model.CommandSpec;

/** One run from the files to the report: what {@code run} and {@code demo} both do. */
final class TestSession {
  private final CommandSpec spec;
  private final Input in;
  private final Shown out;
  private final Shown err;

  /** For the command that is asked for it. */
  TestSession(CommandSpec spec) {
    this.spec = spec;
    this.in = Input.of(spec);
    this.out = Shown.out(spec);
    this.err = Shown.err(spec);
  }

  /** What is asked for; see the options of {@link RunCommand}. */
  record Request(
      Path bench,
      Path unitType,
      Path procedure,
      String serial,
      String operator,
      String order,
      Path records,
      Optional<Path> capture,
      boolean unattended,
      Optional<Path> seenTo,
      boolean json,
      Optional<Event.Job> job) {}

  /** Runs, judges and reports; gives the exit code. */
  int carryOut(Request request)
      throws FileMistakes, WrongRequest, IOException, RecordReader.NotARecord {
    WrongRequest.requireWords("--serial", request.serial());
    WrongRequest.requireWords("--operator", request.operator());
    WrongRequest.requireWords("--order", request.order());
    RunPlan plan = plan(request);
    if (request.unattended() && plan.bench().simulation().isEmpty()) {
      throw new WrongRequest(
          request.bench()
              + ": --unattended is for simulated benches only; on a real one a person answers the"
              + " cautions");
    }
    if (request.unattended() && plan.bench().instruments().stream().anyMatch(i -> i.typedIn())) {
      throw new WrongRequest(
          request.bench()
              + ": --unattended leaves nobody to read the instrument that is \"typed in\"; run it"
              + " without");
    }
    if (!request.unattended()) {
      in.requirePerson(plan.bench().simulation().isPresent());
    }
    Sealing sealing = Sealing.begin(spec, !request.unattended());
    BenchLinks.Wanted wanted =
        BenchLinks.Wanted.of(
            plan.bench(), "a run of unit " + plan.serial() + " by " + plan.operator());
    StopSwitch stop = new StopSwitch();
    try (StopHook hook = StopHook.set(stop, request.json() ? err : out, err);
        BenchLinks links = BenchLinks.of(wanted, request.capture(), err);
        Tty tty = request.unattended() ? Tty.watched() : Tty.forKeys()) {
      hook.lastly(tty::close);
      if (request.seenTo().isPresent()) {
        Path noted =
            SeenTo.note(
                request.seenTo().get(),
                plan.operator(),
                GivenFiles.clockOf(spec, plan.bench()).utc());
        err.println("That you saw to that unit is noted in " + noted);
      }
      LastRun.warnings(request.records(), plan.bench()).forEach(err::println);
      BenchClock clock = GivenFiles.clockOf(spec, plan.bench());
      RecordFiles files = RecordFiles.fresh(request.records(), request.serial(), clock.utc());
      RunResult result = run(plan, request, clock, files, stop, tty, links, sealing);
      if (!result.recorded()) {
        tellLost(files.record(), result);
        return ExitCode.NOT_COMPLETED;
      }
      return new Outcome(out, tty.knownWidth()).reported(files, request.json());
    }
  }

  private RunPlan plan(Request request) throws FileMistakes {
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> bench = files.read(request.bench(), BenchFileReader::read);
    GivenFiles.Given<UnitType> unit = files.read(request.unitType(), UnitTypeReader::read);
    GivenFiles.Given<Procedure> procedure = files.read(request.procedure(), ProcedureReader::read);
    files.finish();
    return new RunPlan(
        bench.value(),
        unit.value(),
        procedure.value(),
        List.of(
            bench.source(BenchFileReader.KIND),
            unit.source(UnitTypeReader.KIND),
            procedure.source(ProcedureReader.KIND)),
        request.serial().strip(),
        request.operator().strip(),
        request.order().strip(),
        Version.text(),
        request.job());
  }

  /** What there is of it is not judged here: the disk that lost the record would take no report. */
  private void tellLost(Path record, RunResult result) {
    err.println("The run was ended: " + result.reason() + ".");
    err.println("Safe signal: " + result.safe().detail());
    err.println(
        "Mend that, or name another place with --records, and run again."
            + (Files.exists(record) ? " What was written until then is in " + record + "." : ""));
  }

  private RunResult run(
      RunPlan plan,
      Request request,
      BenchClock clock,
      RecordFiles files,
      StopSwitch stop,
      Tty tty,
      BenchLinks links,
      Sealing sealing)
      throws IOException, WrongRequest {
    Shown shown = request.json() ? Shown.nothing() : out;
    Operator operator =
        request.unattended()
            ? new UnattendedOperator(shown, tty::width)
            : new ConsoleOperator(in, request.json() ? err : out, tty, clock, stop);
    Expansion expanded =
        Expansion.of(plan.procedure(), plan.unit(), plan.bench().samplePeriodSeconds());
    RunScreen screen =
        new RunScreen(shown, Terminals.isThere(), expanded, clock.scale(), tty::width);
    try (Bench bench =
            BenchAssembly.of(plan.bench(), plan.unit(), links.opener(), clock, operator);
        FileJournal journal = journal(files.record(), clock)) {
      Runner runner = new Runner(plan, bench, clock, journal, List.of(screen), operator, stop);
      RunResult result = runner.run();
      screen.end();
      tellEnd(shown, result, tty.width());
      request.capture().ifPresent(folder -> shown.println("Transcripts: " + folder));
      return result;
    } finally {
      // Last: the signal is safe and the record closed by now, however it ended.
      sealing.seal(files.record());
    }
  }

  private static FileJournal journal(Path record, BenchClock clock) throws WrongRequest {
    try {
      return FileJournal.create(record, clock);
    } catch (IOException e) {
      throw WrongRequest.unwritable(record, e);
    }
  }

  private static void tellEnd(Shown out, RunResult result, int columns) {
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
}
