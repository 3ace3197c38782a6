package org.benchstroke.papers;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.csv.CSVFormat;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Limit;

/**
 * All measures of runs as comma-separated values, RFC 4180, a row each, with all the digits that
 * there are; a cell is empty where there is nothing. Stateless.
 */
public final class MeasuresCsv {
  private static final String[] HEADINGS = {
    "run",
    "kind",
    "title",
    "place",
    "truth",
    "value",
    "U",
    "k",
    "unit",
    "low",
    "high",
    "rule",
    "word",
    "probability",
    "speaks of",
    "method",
    "note"
  };

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
    StringBuilder text = new StringBuilder(line(List.of(HEADINGS)));
    for (Run run : runs) {
      for (Judgement judgement : run.judged().judgements()) {
        text.append(line(row(run.which(), judgement)));
      }
    }
    return text.toString();
  }

  private static String line(List<String> cells) {
    return CSVFormat.RFC4180.format(cells.toArray()) + "\r\n";
  }

  private static List<String> row(String which, Judgement judgement) {
    Measure measure = judgement.measure();
    Optional<Expanded> expanded = Figures.expanded(measure);
    Optional<Limit> limit = judgement.limit();
    return List.of(
        which,
        measure.kind().key(),
        measure.kind().title(),
        measure.place().words(),
        measure.truth().text(),
        measure.value().map(Numbers::exact).orElse(""),
        expanded.map(e -> Numbers.exact(e.half())).orElse(""),
        expanded.map(e -> Numbers.exact(e.k())).orElse(""),
        measure.kind().unit(),
        limit.map(l -> exact(l.low())).orElse(""),
        limit.map(l -> exact(l.high())).orElse(""),
        limit.map(Limit::rule).map(DecisionRule::text).orElse(""),
        judgement.word().map(Word::text).orElse(""),
        exact(judgement.probability()),
        measure.scope().key(),
        measure.method(),
        measure.note());
  }

  private static String exact(OptionalDouble value) {
    return value.isPresent() ? Numbers.exact(value.getAsDouble()) : "";
  }
}
