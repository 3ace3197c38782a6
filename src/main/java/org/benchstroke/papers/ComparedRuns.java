package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Truth;
import org.benchstroke.papers.plot.Band;
import org.benchstroke.papers.plot.Branch;
import org.benchstroke.papers.plot.Decimation;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.record.Label;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;

/**
 * Two judged runs side by side. Immutable.
 *
 * @param first one of them
 * @param second the other
 * @param differing what is stated of them and differs
 * @param pairs their measures, in the order of the first run's report, then what only the second
 *     has
 */
public record ComparedRuns(
    JudgedRun first, JudgedRun second, List<Fact> differing, List<Pair> pairs) {
  public ComparedRuns {
    differing = List.copyOf(differing);
    pairs = List.copyOf(pairs);
  }

  /**
   * Something stated of both.
   *
   * @param name what it is
   * @param first of the first run; a dash where there is none
   * @param second of the second one
   */
  public record Fact(String name, String first, String second) {}

  /**
   * A value with its uncertainty.
   *
   * @param value in the measure's unit; empty where there is none
   * @param half U, likewise
   */
  public record Valued(OptionalDouble value, OptionalDouble half) {
    private static final Valued NONE = new Valued(OptionalDouble.empty(), OptionalDouble.empty());

    private static Valued of(Measure measure) {
      return new Valued(
          finite(measure.value()), finite(Figures.expanded(measure).map(e -> e.half())));
    }

    private static OptionalDouble finite(Optional<Double> value) {
      return value.filter(Double::isFinite).map(OptionalDouble::of).orElse(OptionalDouble.empty());
    }
  }

  /**
   * A measure of both runs.
   *
   * @param kind what it is
   * @param place where
   * @param truth by what it was known
   * @param first of the first run
   * @param second of the second one
   */
  public record Pair(MeasureKind kind, Location place, Truth truth, Valued first, Valued second) {
    /**
     * |E_n|: the distance in the root of the sum of the squared U (ISO/IEC 17043:2010 B.3.1.3 e,
     * from memory). What two runs of one bench share cancels in the distance and not in U, so that
     * it is rather too small; empty without both values and a U above 0.
     */
    public OptionalDouble normalised() {
      if (Stream.of(first.value(), first.half(), second.value(), second.half())
          .anyMatch(OptionalDouble::isEmpty)) {
        return OptionalDouble.empty();
      }
      double both = Math.hypot(first.half().getAsDouble(), second.half().getAsDouble());
      double apart = Math.abs(first.value().getAsDouble() - second.value().getAsDouble());
      return both > 0.0 ? OptionalDouble.of(apart / both) : OptionalDouble.empty();
    }

    /** Whether the values differ by more than their U allows. */
    public boolean differ() {
      return normalised().orElse(0.0) > 1.0;
    }
  }

  /** What makes two measures the same one. */
  private record Key(MeasureKind kind, Location place, Truth truth) {
    static Key of(Measure measure) {
      return new Key(measure.kind(), measure.place(), measure.truth());
    }
  }

  /** Compares. */
  public static ComparedRuns of(JudgedRun first, JudgedRun second) {
    return new ComparedRuns(first, second, differing(first, second), pairs(first, second));
  }

  private static List<Pair> pairs(JudgedRun first, JudgedRun second) {
    Map<Key, Valued> ones = values(first);
    Map<Key, Valued> others = values(second);
    return Stream.concat(ones.keySet().stream(), others.keySet().stream())
        .distinct()
        .map(
            key ->
                new Pair(
                    key.kind(),
                    key.place(),
                    key.truth(),
                    ones.getOrDefault(key, Valued.NONE),
                    others.getOrDefault(key, Valued.NONE)))
        .toList();
  }

  private static Map<Key, Valued> values(JudgedRun run) {
    Map<Key, Valued> values = new LinkedHashMap<>();
    for (Judgement judgement : run.judgements()) {
      values.putIfAbsent(Key.of(judgement.measure()), Valued.of(judgement.measure()));
    }
    return values;
  }

  private static List<Fact> differing(JudgedRun first, JudgedRun second) {
    Map<String, String> ones = facts(first);
    Map<String, String> others = facts(second);
    return Stream.concat(ones.keySet().stream(), others.keySet().stream())
        .distinct()
        .map(
            name ->
                new Fact(
                    name,
                    ReportPages.orDash(ones.getOrDefault(name, "")),
                    ReportPages.orDash(others.getOrDefault(name, ""))))
        .filter(fact -> !fact.first().equals(fact.second()))
        .toList();
  }

  private static Map<String, String> facts(JudgedRun run) {
    Map<String, String> facts = new LinkedHashMap<>();
    facts.put("serial number", run.record().label(Label.SERIAL));
    facts.put("order", run.record().label(Label.ORDER));
    facts.put("begun", ReportPages.date(run));
    facts.put("operator", run.record().label(Label.OPERATOR));
    facts.put("verdict", run.verdict().ofUnit());
    facts.put("whole run", run.complete() ? "yes" : "no");
    facts.put("simulated", run.simulated() ? "yes" : "no");
    facts.put("bench", run.bench().name());
    facts.put("place", run.bench().place());
    facts.put("unit type", run.unit().name());
    facts.put("procedure", run.procedure().name() + ", " + run.procedure().version());
    facts.put("program", run.record().opened().tool());
    for (InstrumentSpec spec : run.bench().instruments()) {
      String roles = spec.roles().stream().map(Role::key).collect(Collectors.joining(", "));
      facts.put(roles, spec.expected());
    }
    for (Limit limit : run.unit().limits()) {
      facts.put("limit: " + limit.measure().title(), limit.text());
    }
    return facts;
  }

  /**
   * Both travel errors over the setpoint, by the stem if both have it; where one has none, both
   * positions against time; empty without.
   */
  public Optional<Drawing> picture() {
    return picture("run 1", "run 2");
  }

  /**
   * Likewise, with names of the two in its legend.
   *
   * @param one of the first
   * @param other of the second
   */
  public Optional<Drawing> picture(String one, String other) {
    for (Truth truth : List.of(Truth.STEM, Truth.FEEDBACK)) {
      HistoryPlots.Errors before = errors(one, first, truth);
      HistoryPlots.Errors after = errors(other, second, truth);
      if (!isEmpty(before) && !isEmpty(after)) {
        HistoryPlots.Subject subject =
            new HistoryPlots.Subject(
                "compared",
                marks() + "Travel errors of two runs, by " + truth.text(),
                "travel error, % of travel");
        return Optional.of(HistoryPlots.errors(subject, before, after, band()));
      }
    }
    return traces(one, other);
  }

  private Optional<Drawing> traces(String one, String other) {
    HistoryPlots.Compared before = trace(one, first);
    HistoryPlots.Compared after = trace(other, second);
    if (before.runs().isEmpty() || after.runs().isEmpty()) {
      return Optional.empty();
    }
    HistoryPlots.Subject subject =
        new HistoryPlots.Subject(
            "compared", marks() + "Positions of two runs, by feedback", "position, % of travel");
    return Optional.of(HistoryPlots.traces(subject, before, after));
  }

  private static HistoryPlots.Compared trace(String name, JudgedRun run) {
    Samples samples = new Samples(run.bench(), run.unit());
    List<Sample> position = Sample.of(samples.position(Lines.of(run.record())), 0.0);
    return new HistoryPlots.Compared(
        name, Decimation.unbroken(position, samples.longestPauseSeconds()));
  }

  private String marks() {
    return first.simulated() || second.simulated() ? "SIMULATED: " : "";
  }

  private static boolean isEmpty(HistoryPlots.Errors errors) {
    return errors.up().isEmpty() && errors.down().isEmpty();
  }

  private static HistoryPlots.Errors errors(String name, JudgedRun run, Truth truth) {
    return new HistoryPlots.Errors(
        name, points(run, truth, Direction.UP), points(run, truth, Direction.DOWN));
  }

  private static List<Branch.Point> points(JudgedRun run, Truth truth, Direction direction) {
    List<Branch.Point> points = new ArrayList<>();
    for (Judgement judgement : run.judgements()) {
      Measure measure = judgement.measure();
      if (measure.kind() == MeasureKind.TRAVEL_ERROR
          && measure.truth() == truth
          && measure.place() instanceof Location.Side side
          && side.direction() == direction) {
        Valued valued = Valued.of(measure);
        valued
            .value()
            .ifPresent(
                v -> points.add(new Branch.Point(side.percent(), v, valued.half().orElse(0.0))));
      }
    }
    points.sort((a, b) -> Double.compare(a.x(), b.x()));
    return points;
  }

  /** A limit that both have. */
  private Optional<Band> band() {
    Optional<Limit> limit = first.unit().limit(MeasureKind.TRAVEL_ERROR);
    return limit
        .filter(l -> second.unit().limit(MeasureKind.TRAVEL_ERROR).equals(Optional.of(l)))
        .map(l -> new Band("limit " + l.text(), l.low(), l.high(), 0.0, ""));
  }
}
