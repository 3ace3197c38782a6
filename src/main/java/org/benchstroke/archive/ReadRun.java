package org.benchstroke.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.archive.ArchivedRun.CauseRow;
import org.benchstroke.archive.ArchivedRun.Facts;
import org.benchstroke.archive.ArchivedRun.InstrumentRow;
import org.benchstroke.archive.ArchivedRun.Labels;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.archive.ArchivedRun.RecordFile;
import org.benchstroke.archive.ArchivedRun.Result;
import org.benchstroke.archive.ArchivedRun.Worst;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordOutline;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.Seal;
import org.benchstroke.record.signing.PublicHalf;
import org.benchstroke.tests.RecordedRun;

/** From a record to what the archive keeps of it. Stateless. */
public final class ReadRun {
  /** As many causes as the judgement beside a record holds. */
  private static final int CAUSES = 5;

  private ReadRun() {}

  /**
   * Takes the judgement beside the record if that names its digest and is sealed by the key that
   * sealed the record, else judges the record. What is not as it was sealed is always judged.
   *
   * @throws RecordReader.NotARecord if it is none
   * @throws FileMistakes if a file that it holds can't be read any more
   */
  public static ArchivedRun of(Path record) throws RecordReader.NotARecord, FileMistakes {
    RecordOutline outline = RecordOutline.read(record);
    boolean unchanged = outline.seal().holds() && outline.amendments().flaws().isEmpty();
    Optional<JudgementFile.Whole> judgement =
        Optional.of(outline.seal())
            .filter(seal -> unchanged)
            .flatMap(Seal::key)
            .flatMap(key -> JudgementFile.beside(record, outline.sha256(), key));
    return judgement.isPresent() ? of(record, outline, judgement.get()) : judged(record);
  }

  /** Judges the record, whatever stands beside it. */
  public static ArchivedRun judged(Path record) throws RecordReader.NotARecord, FileMistakes {
    return of(record, new TwinAndCauses(RecordedRun.judge(RecordReader.read(record))));
  }

  /** Of a record that is judged already. */
  public static ArchivedRun of(Path record, TwinAndCauses aids) {
    JudgedRun run = aids.run();
    List<MeasureRow> measures = run.judgements().stream().map(ReadRun::measure).toList();
    Seal seal = run.record().seal().orElseThrow();
    RecordFile file =
        file(
            record,
            run.record().digest().orElseThrow().sha256(),
            run.record().amendments().all().size(),
            seal,
            run.record().flaws().size() + run.record().doubts().size(),
            RecordFile.RECORD);
    Result result =
        new Result(
            run.verdict().text(), run.reason(), run.complete(), run.passed(), Worst.of(measures));
    return new ArchivedRun(
        file,
        labels(run.record()),
        facts(run),
        result,
        measures,
        run.imported().isPresent() ? List.of() : causes(aids.diagnosis()),
        run.bench().instruments().stream().flatMap(spec -> instruments(spec).stream()).toList(),
        seal.holds() ? seal.key() : Optional.empty());
  }

  private static ArchivedRun of(Path record, RecordOutline outline, JudgementFile.Whole judgement) {
    List<MeasureRow> measures = judgement.measureRows();
    Facts facts =
        new Facts(
            outline.begun(),
            outline.ended(),
            outline.closed().map(Event.Closed::how).orElse(Facts.INTERRUPTED),
            judgement.bench(),
            judgement.place(),
            judgement.unit().type(),
            judgement.procedure(),
            judgement.procedureVersion(),
            outline.opened().tool(),
            judgement.simulated(),
            outline.imported());
    Result result =
        new Result(
            judgement.verdict(),
            judgement.reason(),
            judgement.complete(),
            judgement.passed(),
            Worst.of(measures));
    Optional<PublicHalf> key = outline.seal().holds() ? outline.seal().key() : Optional.empty();
    RecordFile file =
        file(
            record,
            outline.sha256(),
            outline.amendments().all().size(),
            outline.seal(),
            judgement.recordFlaws().size(),
            RecordFile.JUDGEMENT);
    Labels labels =
        new Labels(
            outline.label(Label.SERIAL),
            outline.label(Label.ORDER),
            outline.label(Label.CUSTOMER),
            outline.label(Label.OPERATOR),
            stated(outline.label(Label.TAG)));
    return new ArchivedRun(
        file,
        labels,
        facts,
        result,
        measures,
        judgement.causeRows(),
        judgement.instrumentRows(),
        key);
  }

  private static RecordFile file(
      Path record, String sha256, int amendments, Seal seal, int flaws, String from) {
    Path whole = record.toAbsolutePath().normalize();
    return new RecordFile(
        sha256,
        whole.getFileName().toString(),
        whole.getParent().toString(),
        size(whole),
        amendments,
        seal.state().text(),
        seal.holds() ? seal.key().map(PublicHalf::fingerprint) : Optional.empty(),
        flaws,
        from);
  }

  private static long size(Path record) {
    try {
      return Files.size(record);
    } catch (IOException e) {
      return 0; // It was read a moment ago; whoever compares sizes reads it again.
    }
  }

  private static Optional<String> stated(String label) {
    return Optional.of(label).filter(text -> !text.isBlank());
  }

  private static Labels labels(RunRecord record) {
    return new Labels(
        record.label(Label.SERIAL),
        record.label(Label.ORDER),
        record.label(Label.CUSTOMER),
        record.label(Label.OPERATOR),
        stated(record.label(Label.TAG)));
  }

  private static Facts facts(JudgedRun run) {
    RunRecord record = run.record();
    return new Facts(
        record.entries().get(0).utc(),
        record.entries().get(record.entries().size() - 1).utc(),
        record.closed().map(Event.Closed::how).orElse(Facts.INTERRUPTED),
        run.bench().name(),
        run.bench().place(),
        run.unit().name(),
        run.procedure().name(),
        run.procedure().version(),
        record.opened().tool(),
        run.simulated(),
        run.imported().isPresent());
  }

  private static MeasureRow measure(Judgement judgement) {
    Measure measure = judgement.measure();
    return new MeasureRow(
        measure.kind().key(),
        measure.place().id(),
        measure.place().setpointPercent(),
        measure.truth().text(),
        finite(measure.value()),
        finite(measure.budget().map(budget -> budget.expand()).map(Expanded::half)),
        measure.kind().unit(),
        judgement.limit().map(limit -> limit.low()).orElse(OptionalDouble.empty()),
        judgement.limit().map(limit -> limit.high()).orElse(OptionalDouble.empty()),
        judgement.word().map(Word::text));
  }

  /** What is no number has no place in a database, nor in JSON. */
  private static OptionalDouble finite(Optional<Double> value) {
    return value.filter(Double::isFinite).map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  private static List<CauseRow> causes(Diagnosis diagnosis) {
    List<CauseRow> rows = new ArrayList<>();
    for (RankedCause each : diagnosis.ranked().stream().limit(CAUSES).toList()) {
      boolean named =
          diagnosis.named().stream()
              .anyMatch(alike -> alike.stream().anyMatch(r -> r.cause() == each.cause()));
      String key = each.cause().name().toLowerCase(Locale.ROOT);
      rows.add(new CauseRow(key, each.probability(), named));
    }
    return rows;
  }

  private static List<InstrumentRow> instruments(InstrumentSpec spec) {
    return spec.roles().stream()
        .map(Role::key)
        .map(
            role ->
                new InstrumentRow(
                    role,
                    spec.name(),
                    spec.maker(),
                    spec.model(),
                    spec.serial(),
                    spec.calibration().certificate(),
                    spec.calibration().due().toString()))
        .toList();
  }
}
