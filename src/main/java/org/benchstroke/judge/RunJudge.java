package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.UnitType;

/**
 * Judges a record: the same record, bench, unit type and procedure always give the same judgement.
 * It knows no test: each is judged by the judge of its kind. Immutable, safe for any thread.
 */
public final class RunJudge {
  private final Map<Class<?>, TestKind<?>> kinds = new HashMap<>();
  private final List<Relation> relations;

  /**
   * With a catalogue.
   *
   * @param kinds the kinds of test
   * @param relations what follows from measures of several tests
   */
  public RunJudge(List<TestKind<?>> kinds, List<Relation> relations) {
    kinds.forEach(kind -> this.kinds.put(kind.type(), kind));
    this.relations = List.copyOf(relations);
  }

  /**
   * Judges a record. A record with holes is no error: what can't be judged has no result.
   *
   * @param record the record
   * @param bench the bench, as the record holds it
   * @param unit the unit type, as the record holds it
   * @param procedure the procedure, as the record holds it
   */
  public JudgedRun judge(RunRecord record, BenchFile bench, UnitType unit, Procedure procedure) {
    Expansion plan = Expansion.of(procedure, unit, bench.samplePeriodSeconds());
    Chapters chapters = Chapters.of(record, plan);
    JudgedBench first = JudgedBench.of(bench, unit, record);
    JudgedBench judged = first.knowing(judges(first, procedure, chapters));
    List<TestJudge> judges = judges(judged, procedure, chapters);
    List<TestResult> results = results(judges, unit, procedure, chapters);
    List<Measure> measures = measures(judges, results, judged);
    List<AsOrdered> orders = new ArrayList<>();
    orders.add(new ActionMeasure(judged).judge(record));
    orders.addAll(Arrivals.orders(judged));
    results.forEach(r -> orders.addAll(r.orders()));
    List<Judgement> judgements = judgements(unit, measures);
    List<TestSummary> tests = chapters.summaries(procedure);
    UnitVerdict verdict =
        UnitVerdict.of(record, bench, unit, tests, judgements, orders, judged.scope(results));
    return new JudgedRun(
        record,
        bench,
        unit,
        procedure,
        tests,
        judgements,
        orders,
        readings(results, Truth.FEEDBACK),
        readings(results, Truth.STEM),
        results.stream().flatMap(r -> r.traces().stream()).toList(),
        findings(judged, results, judgements, orders),
        verdict.word(),
        verdict.reason(),
        verdict.complete());
  }

  /** One judge for each test of the procedure, in order. */
  private List<TestJudge> judges(JudgedBench judged, Procedure procedure, Chapters chapters) {
    List<TestJudge> judges = new ArrayList<>();
    for (int index = 0; index < procedure.tests().size(); index++) {
      TestSpec test = procedure.tests().get(index);
      judges.add(
          kinds.get(test.getClass()).judge(judged, test, chapters.counting(index, test.name())));
    }
    return judges;
  }

  private static List<TestResult> results(
      List<TestJudge> judges, UnitType unit, Procedure procedure, Chapters chapters) {
    List<TestResult> results = new ArrayList<>();
    for (int index = 0; index < judges.size(); index++) {
      TestJudge judge = judges.get(index);
      TestResult result = judge.result();
      results.add(
          chapters
              .counting(index, procedure.tests().get(index).name())
              .flatMap(Chapter::more)
              .or(() -> judge.beside(result))
              .map(more -> result.withMore(more, m -> passes(unit, m)))
              .orElse(result));
    }
    return results;
  }

  /** Those of the tests, then what follows from several of them. */
  private List<Measure> measures(
      List<TestJudge> judges, List<TestResult> results, JudgedBench judged) {
    List<Measure> measures =
        new ArrayList<>(results.stream().flatMap(r -> r.measures().stream()).toList());
    for (Relation relation : relations) {
      measures.addAll(relation.measures(measures, judged));
    }
    List<Measure> all = List.copyOf(measures);
    judges.forEach(judge -> measures.addAll(judge.related(all)));
    measures.replaceAll(m -> ClockRate.in(m, judged.logged()));
    return measures;
  }

  private List<Finding> findings(
      JudgedBench judged,
      List<TestResult> results,
      List<Judgement> judgements,
      List<AsOrdered> orders) {
    List<Finding> findings =
        new ArrayList<>(new Findings(judged, results, judgements, orders).all());
    List<Measure> measures = judgements.stream().map(Judgement::measure).toList();
    relations.forEach(relation -> findings.addAll(relation.findings(measures)));
    results.forEach(r -> findings.addAll(r.findings()));
    return Finding.sorted(findings);
  }

  private static List<RestReading> readings(List<TestResult> results, Truth truth) {
    return results.stream().flatMap(r -> r.rests(truth).stream()).toList();
  }

  /** All measures against their limits; a limit without any measure has no result. */
  private static List<Judgement> judgements(UnitType unit, List<Measure> measures) {
    List<Judgement> judgements = new ArrayList<>();
    for (Measure measure : measures) {
      judgements.add(judgement(unit, measure, unit.limit(measure.kind())));
    }
    for (Limit limit : unit.limits()) {
      if (measures.stream().noneMatch(m -> m.kind() == limit.measure())) {
        Measure none =
            Measures.none(
                limit.measure(),
                Location.whole(),
                Truth.of(limit.measure()),
                "none",
                "no test of the procedure measures it");
        judgements.add(judgement(unit, none, Optional.of(limit)));
      }
    }
    return judgements;
  }

  private static boolean passes(UnitType unit, Measure measure) {
    Optional<Word> word = judgement(unit, measure, unit.limit(measure.kind())).word();
    return word.stream().anyMatch(w -> w == Word.PASS || w == Word.CONDITIONAL_PASS);
  }

  /** A measure compared with its limit. */
  static Judgement judgement(UnitType unit, Measure measure, Optional<Limit> limit) {
    if (limit.isEmpty()) {
      return new Judgement(measure, limit, Optional.empty(), OptionalDouble.empty());
    }
    if (measure.value().isEmpty() || measure.budget().isEmpty()) {
      return new Judgement(measure, limit, Optional.of(Word.NO_RESULT), OptionalDouble.empty());
    }
    Expanded expanded = measure.budget().get().expand();
    boolean refused =
        limit.get().rule().simpleAcceptance()
            && limit.get().accuracyRatio(expanded.half()) < unit.practice().ratioWarn();
    if (refused) {
      // Simple acceptance is for an accuracy ratio of 4 or more only (common practice).
      return new Judgement(measure, limit, Optional.of(Word.NO_RESULT), OptionalDouble.empty());
    }
    Decision decision =
        Decision.judge(
            measure.value().get(), expanded.half(), measure.budget().get().errors(), limit.get());
    return new Judgement(
        measure,
        limit,
        Optional.of(decision.word()),
        decision.word() == Word.NO_RESULT
            ? OptionalDouble.empty()
            : OptionalDouble.of(decision.probability()));
  }
}
