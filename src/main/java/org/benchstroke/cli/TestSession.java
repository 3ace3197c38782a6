package org.benchstroke.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.UnitType;
import org.benchstroke.bench.UnitTypeReader;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.Mistake;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.ProcedureReader;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.record.Event;
import org.benchstroke.record.FileJournal;
import org.benchstroke.record.RecordReader;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Caution;
import org.benchstroke.run.Operator;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.RunPlan;
import org.benchstroke.run.RunResult;
import org.benchstroke.run.Runner;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.transport.SystemLinks;

/** One run from the files to the report: what {@code run} and {@code demo} both do. */
final class TestSession {
  /** Longer than the safe signal can take with all its tries. */
  private static final long STOP_SECONDS = 20;

  private final PrintWriter out;
  private final PrintWriter err;

  TestSession(PrintWriter out, PrintWriter err) {
    this.out = out;
    this.err = err;
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
      boolean json) {}

  /** Runs, judges and reports; gives the exit code. */
  int carryOut(Request request)
      throws FileMistakes, WrongRequest, IOException, RecordReader.NotARecord {
    RunPlan plan = plan(request);
    if (request.unattended() && plan.bench().simulation().isEmpty()) {
      throw new WrongRequest(
          request.bench()
              + ": --unattended is for simulated benches only; on a real one a person answers the"
              + " cautions");
    }
    tellInterrupted(request.records());
    BenchClock clock =
        plan.bench()
            .simulation()
            .<BenchClock>map(simulation -> SystemClock.scaled(simulation.timeScale()))
            .orElseGet(SystemClock::realTime);
    RecordFiles files = RecordFiles.fresh(request.records(), request.serial(), clock.utc());
    StopSwitch stop = new StopSwitch();
    CountDownLatch ended = new CountDownLatch(1);
    Thread hook = new Thread(() -> stopAndWait(stop, ended), "stop");
    Runtime.getRuntime().addShutdownHook(hook);
    try {
      RunResult result = run(plan, request, clock, files, stop);
      int code = new Outcome(out).reported(files, request.json());
      // A record that reads as complete, but whose last line may not be on the disk.
      boolean doubtful = code == ExitCode.PASSED && result.how() != RunEnded.How.COMPLETE;
      return doubtful ? ExitCode.NOT_COMPLETED : code;
    } finally {
      ended.countDown();
      removeQuietly(hook);
    }
  }

  private RunPlan plan(Request request) throws FileMistakes {
    List<Mistake> mistakes = new ArrayList<>();
    Source<BenchFile> bench = read(request.bench(), BenchFileReader::read, mistakes);
    Source<UnitType> unit = read(request.unitType(), UnitTypeReader::read, mistakes);
    Source<Procedure> procedure = read(request.procedure(), ProcedureReader::read, mistakes);
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
    return new RunPlan(
        bench.value().orElseThrow(),
        unit.value().orElseThrow(),
        procedure.value().orElseThrow(),
        List.of(
            bench.file(BenchFileReader.KIND, request.bench()),
            unit.file(UnitTypeReader.KIND, request.unitType()),
            procedure.file(ProcedureReader.KIND, request.procedure())),
        request.serial(),
        request.operator(),
        request.order(),
        Version.text());
  }

  private interface Reader<T> {
    T read(TomlDocument document) throws FileMistakes;
  }

  private record Source<T>(String text, Optional<T> value) {
    Event.SourceFile file(String kind, Path path) {
      return new Event.SourceFile(kind, path.getFileName().toString(), text);
    }
  }

  private static <T> Source<T> read(Path path, Reader<T> reader, List<Mistake> mistakes) {
    try {
      String text = TomlDocument.textOf(path);
      T value = reader.read(TomlDocument.parse(path.toString(), text));
      return new Source<>(text, Optional.of(value));
    } catch (FileMistakes e) {
      mistakes.addAll(e.mistakes());
      return new Source<>("", Optional.empty());
    }
  }

  private void tellInterrupted(Path records) throws IOException {
    for (Path file : RecordFiles.interrupted(records)) {
      err.println(
          file
              + ": this run was interrupted, so its unit may not have been left safe. A new run"
              + " commands the safe signal before anything else.");
    }
  }

  private RunResult run(
      RunPlan plan, Request request, BenchClock clock, RecordFiles files, StopSwitch stop)
      throws IOException, WrongRequest {
    PrintWriter shown = request.json() ? new PrintWriter(Writer.nullWriter()) : out;
    Operator operator =
        request.unattended()
            ? new UnattendedOperator(shown)
            : new ConsoleOperator(request.json() ? err : out, new Keys(System.in), clock, stop);
    RunScreen screen = new RunScreen(shown, Terminal.isThere(), clock.scale());
    try (CaptureOption links = CaptureOption.of(request.capture(), new SystemLinks());
        Bench bench = BenchAssembly.of(plan.bench(), plan.unit(), links.opener(), clock);
        FileJournal journal = journal(files.record(), clock)) {
      Runner runner = new Runner(plan, bench, clock, journal, List.of(screen), operator, stop);
      RunResult result = runner.run();
      tellEnd(shown, result);
      return result;
    }
  }

  private static FileJournal journal(Path record, BenchClock clock) throws WrongRequest {
    try {
      return FileJournal.create(record, clock);
    } catch (IOException e) {
      throw WrongRequest.unwritable(record, e);
    }
  }

  private static void tellEnd(PrintWriter out, RunResult result) {
    out.println();
    out.println("Safe signal: " + result.safe().detail());
    if (!result.safe().confirmed()) {
      out.println(Caution.LINK_LOST.text());
    }
    if (result.nominalSeconds() > 0) {
      out.println(
          "Overhead: the tests took "
              + Numbers.fixed(result.testSeconds(), 0)
              + " s of bench time, "
              + Numbers.fixed(result.testSeconds() / result.nominalSeconds(), 2)
              + " × the unit's own motion and rest ("
              + Numbers.fixed(result.nominalSeconds(), 0)
              + " s)");
    }
    out.flush();
  }

  /** On Ctrl-C: the run ends cleanly first, and the exit code is the one of a stopped run. */
  private void stopAndWait(StopSwitch stop, CountDownLatch ended) {
    stop.stop("stopped at the terminal");
    try {
      boolean clean = ended.await(STOP_SECONDS, TimeUnit.SECONDS);
      out.println(clean ? "Stopped. Exit code 3." : "The run did not end in time.");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    out.flush();
    err.flush();
    Runtime.getRuntime().halt(ExitCode.NOT_COMPLETED);
  }

  private static void removeQuietly(Thread hook) {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException shuttingDown) {
      // The hook is what waits for us; there is nothing to remove.
      return;
    }
  }
}
