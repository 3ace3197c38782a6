package org.benchstroke.papers;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Label;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Limit;

/**
 * All measures of runs as a table, a row each, with all the digits that there are. The same records
 * give the same bytes on any machine. Stateless.
 */
public final class MeasuresCsv {
  private static final List<String> COLUMNS =
      List.of(
          "report",
          "serial",
          "run",
          "kind",
          "title",
          "place",
          "place_id",
          "truth",
          "value",
          "u",
          "k",
          "coverage",
          "unit",
          "limit_low",
          "limit_high",
          "rule",
          "accuracy_ratio",
          "word",
          "probability",
          "speaks_of",
          "method",
          "note");

  private MeasuresCsv() {}

  /**
   * A run.
   *
   * @param which "as found", "as left", or nothing
   * @param judged the run
   */
  public record Run(String which, JudgedRun judged) {}

  /** The text; to be stored as UTF-8. */
  public static String text(List<Run> runs) {
    Csv csv = new Csv(COLUMNS);
    for (Run run : runs) {
      run.judged().judgements().forEach(judgement -> csv.row(row(run, judgement)));
    }
    return Csv.MARK + csv.text();
  }

  private static List<?> row(Run run, Judgement judgement) {
    Measure measure = judgement.measure();
    Optional<Expanded> expanded = Figures.expanded(measure);
    Optional<Limit> limit = judgement.limit();
    return Arrays.asList(
        ReportPages.number(run.judged()),
        run.judged().record().label(Label.SERIAL),
        run.which(),
        measure.kind().key(),
        measure.kind().title(),
        measure.place().words(),
        measure.place().id(),
        measure.truth().text(),
        measure.value(),
        expanded.map(Expanded::half),
        expanded.map(Expanded::k),
        expanded.map(Expanded::coverage),
        measure.kind().unit(),
        limit.map(Limit::low).orElse(OptionalDouble.empty()),
        limit.map(Limit::high).orElse(OptionalDouble.empty()),
        limit.map(Limit::rule).map(DecisionRule::text),
        judgement.accuracyRatio(),
        judgement.word().map(Word::text),
        judgement.probability(),
        measure.scope().key(),
        measure.method(),
        measure.note());
  }
}
