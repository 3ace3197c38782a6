package org.benchstroke.archive;

import java.time.Instant;
import java.util.function.UnaryOperator;
import org.benchstroke.archive.ArchivedRun.Facts;
import org.benchstroke.archive.ArchivedRun.Labels;
import org.benchstroke.archive.ArchivedRun.RecordFile;
import org.benchstroke.archive.ArchivedRun.Result;

/** Runs that differ from others in one thing. */
final class Changed {
  private Changed() {}

  static ArchivedRun labels(ArchivedRun run, UnaryOperator<Labels> change) {
    return new ArchivedRun(
        run.file(),
        change.apply(run.labels()),
        run.facts(),
        run.result(),
        run.measures(),
        run.causes(),
        run.instruments(),
        run.key());
  }

  static ArchivedRun file(ArchivedRun run, UnaryOperator<RecordFile> change) {
    return new ArchivedRun(
        change.apply(run.file()),
        run.labels(),
        run.facts(),
        run.result(),
        run.measures(),
        run.causes(),
        run.instruments(),
        run.key());
  }

  static ArchivedRun facts(ArchivedRun run, UnaryOperator<Facts> change) {
    return new ArchivedRun(
        run.file(),
        run.labels(),
        change.apply(run.facts()),
        run.result(),
        run.measures(),
        run.causes(),
        run.instruments(),
        run.key());
  }

  static ArchivedRun result(ArchivedRun run, String verdict, boolean whole, boolean passed) {
    return new ArchivedRun(
        run.file(),
        run.labels(),
        run.facts(),
        new Result(verdict, run.result().reason(), whole, passed, run.result().worst()),
        run.measures(),
        run.causes(),
        run.instruments(),
        run.key());
  }

  /** A run of a job, with a record of its own. */
  static ArchivedRun of(ArchivedRun run, String serial, String order) {
    return labels(run, l -> new Labels(serial, order, l.customer(), l.operator(), l.tag()));
  }

  static ArchivedRun sha256(ArchivedRun run, String sha256) {
    return file(
        run,
        f ->
            new RecordFile(
                sha256,
                f.name(),
                f.folder(),
                f.bytes(),
                f.amendments(),
                f.seal(),
                f.sealKey(),
                f.flaws(),
                f.judgedFrom()));
  }

  static ArchivedRun name(ArchivedRun run, String name) {
    return file(
        run,
        f ->
            new RecordFile(
                f.sha256(),
                name,
                f.folder(),
                f.bytes(),
                f.amendments(),
                f.seal(),
                f.sealKey(),
                f.flaws(),
                f.judgedFrom()));
  }

  static ArchivedRun amended(ArchivedRun run, String serial) {
    ArchivedRun named = of(run, serial, run.labels().order());
    return file(
        named,
        f ->
            new RecordFile(
                f.sha256(),
                f.name(),
                f.folder(),
                f.bytes(),
                f.amendments() + 1,
                f.seal(),
                f.sealKey(),
                f.flaws(),
                f.judgedFrom()));
  }

  static ArchivedRun begun(ArchivedRun run, Instant begun) {
    return facts(
        run,
        f ->
            new Facts(
                begun,
                begun.plusSeconds(60),
                f.ending(),
                f.bench(),
                f.place(),
                f.unitType(),
                f.procedure(),
                f.procedureVersion(),
                f.program(),
                f.simulated(),
                f.imported()));
  }

  static ArchivedRun simulated(ArchivedRun run) {
    return facts(
        run,
        f ->
            new Facts(
                f.begun(),
                f.ended(),
                f.ending(),
                f.bench(),
                f.place(),
                f.unitType(),
                f.procedure(),
                f.procedureVersion(),
                f.program(),
                true,
                f.imported()));
  }
}
