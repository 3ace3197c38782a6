package org.benchstroke.papers;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.unit.Limit;

/**
 * Judged records as a table with a row each: what a list of units shows. The same records give the
 * same bytes on any machine. Stateless.
 */
public final class UnitsCsv {
  private static final double PERCENT = 100.0;
  private static final List<String> COLUMNS =
      List.of(
          "report",
          "began",
          "serial",
          "order",
          "customer",
          "tag",
          "type",
          "bench",
          "procedure",
          "procedure_version",
          "run",
          "verdict",
          "passed",
          "complete",
          "simulated",
          "recorded_elsewhere",
          "stem_proven",
          "first_failing",
          "worst_margin_pct",
          "worst_margin_of",
          "likely_cause",
          "record",
          "sha256");

  private UnitsCsv() {}

  /**
   * A judged record.
   *
   * @param which "as found", "as left", or nothing
   * @param aids the run with its aids
   * @param file the record's name, without folders
   */
  public record Run(String which, TwinAndCauses aids, String file) {}

  /**
   * How far a value stays inside the nearer side of its limit, % of the tolerance (half the width
   * between two sides, from zero to a single one); below 0 it is beyond.
   *
   * @param percent the margin, %
   * @param of the judged value
   */
  private record Margin(double percent, Judgement of) {}

  /** The text; to be stored as UTF-8. */
  public static String text(List<Run> runs) {
    Csv csv = new Csv(COLUMNS);
    runs.forEach(run -> csv.row(row(run)));
    return Csv.MARK + csv.text();
  }

  private static List<?> row(Run of) {
    JudgedRun run = of.aids().run();
    Optional<Margin> worst = worst(run);
    return Arrays.asList(
        ReportPages.number(run),
        began(run),
        run.record().label(Label.SERIAL),
        run.record().label(Label.ORDER),
        run.record().label(Label.CUSTOMER),
        run.record().label(Label.TAG),
        run.unit().name(),
        run.bench().name(),
        run.procedure().name(),
        run.procedure().version(),
        of.which(),
        ReportPages.headline(run),
        run.passed(),
        run.complete(),
        run.simulated(),
        run.imported().isPresent(),
        run.stemProven(),
        firstFailing(run),
        worst.map(Margin::percent),
        worst.map(margin -> Figures.name(margin.of().measure())),
        run.imported().isPresent() ? "" : cause(of.aids().diagnosis()),
        of.file(),
        run.record().digest().map(RecordDigest::sha256));
  }

  /**
   * By the clock on the bench's wall, with how far that was ahead of UTC; empty if nobody knows.
   */
  private static Optional<String> began(JudgedRun run) {
    boolean dated = run.imported().map(Event.Imported::dated).orElse(true);
    ZoneOffset offset = run.record().offset();
    return dated
        ? Optional.of(
            DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
                ReportPages.began(run).truncatedTo(ChronoUnit.SECONDS).atOffset(offset)))
        : Optional.empty();
  }

  /** The first measure that fails, else the first thing that is not as ordered. */
  private static Optional<String> firstFailing(JudgedRun run) {
    Optional<String> measure =
        run.judgements().stream()
            .filter(judgement -> judgement.word().equals(Optional.of(Word.FAIL)))
            .map(judgement -> Figures.name(judgement.measure()))
            .findFirst();
    return measure.or(
        () ->
            run.orders().stream()
                .filter(order -> order.word() == Word.FAIL)
                .map(AsOrdered::what)
                .findFirst());
  }

  private static Optional<Margin> worst(JudgedRun run) {
    return run.judgements().stream()
        .flatMap(judgement -> margin(judgement).stream())
        .min(Comparator.comparingDouble(Margin::percent));
  }

  private static Optional<Margin> margin(Judgement judgement) {
    if (judgement.limit().isEmpty() || judgement.measure().value().isEmpty()) {
      return Optional.empty();
    }
    Limit limit = judgement.limit().get();
    double value = judgement.measure().value().get();
    double below = limit.high().orElse(Double.POSITIVE_INFINITY) - value;
    double above = value - limit.low().orElse(Double.NEGATIVE_INFINITY);
    // tolerance ÷ 1, in the unit of the measure
    double percent = PERCENT * Math.min(below, above) / limit.accuracyRatio(1.0);
    return Double.isFinite(percent)
        ? Optional.of(new Margin(percent, judgement))
        : Optional.empty();
  }

  /** "zero shift", "zero shift or span", "stiction and zero shift". */
  private static String cause(Diagnosis diagnosis) {
    return diagnosis.named().stream()
        .map(
            alike ->
                alike.stream()
                    .map(ranked -> ranked.cause().title())
                    .collect(Collectors.joining(" or ")))
        .collect(Collectors.joining(" and "));
  }
}
