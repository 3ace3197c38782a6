package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.procedure.ByHand;
import org.benchstroke.procedure.DeadBand;
import org.benchstroke.procedure.DutyRun;
import org.benchstroke.procedure.Endurance;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.Holds;
import org.benchstroke.procedure.PowerLoss;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.Resolution;
import org.benchstroke.procedure.SignalLoss;
import org.benchstroke.procedure.SlowRamp;
import org.benchstroke.procedure.Steps;
import org.benchstroke.procedure.StrokeTime;
import org.benchstroke.procedure.SupplyVoltage;
import org.benchstroke.procedure.Switches;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.procedure.TravelError;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/**
 * Judges a record: the same record, bench, unit type and procedure always give the same judgement.
 * Stateless, safe for any thread.
 */
public final class RunJudge {
  private RunJudge() {}

  /**
   * Judges a record. A record with holes is no error: what can't be judged has no result.
   *
   * @param record the record
   * @param bench the bench, as the record holds it
   * @param unit the unit type, as the record holds it
   * @param procedure the procedure, as the record holds it
   */
  public static JudgedRun judge(
      RunRecord record, BenchFile bench, UnitType unit, Procedure procedure) {
    Expansion plan = Expansion.of(procedure, unit, bench.samplePeriodSeconds());
    Attempts attempts = Attempts.of(record, plan);
    JudgedBench judged = knowing(JudgedBench.of(bench, unit, record), procedure, attempts);
    List<TestResult> results = new ArrayList<>();
    for (int index = 0; index < procedure.tests().size(); index++) {
      TestSpec test = procedure.tests().get(index);
      Optional<Attempt> attempt = attempts.counting(index, test.name());
      TestResult result = result(judged, test, attempt);
      results.add(
          attempt
              .flatMap(Attempt::more)
              .or(() -> beside(judged, test, attempt, result))
              .map(more -> result.withMore(more, m -> passes(unit, m)))
              .orElse(result));
    }
    List<Measure> measures =
        new ArrayList<>(results.stream().flatMap(r -> r.measures().stream()).toList());
    measures.addAll(StairRelation.all(measures, judged.noiseAtRestPercent()));
    List<TravelTest> travels = results.stream().flatMap(r -> r.travel().stream()).toList();
    measures.addAll(HysteresisMeasure.all(judged, travels, measures));
    measures.replaceAll(m -> ClockRate.in(m, judged.logged()));
    List<AsOrdered> orders = new ArrayList<>();
    orders.add(new ActionMeasure(judged).judge(record));
    orders.addAll(Arrivals.orders(judged));
    results.forEach(r -> orders.addAll(r.orders()));
    List<Judgement> judgements = judgements(unit, measures);
    List<TestSummary> tests = attempts.summaries(procedure);
    List<String> findings =
        new ArrayList<>(new Findings(judged, travels, judgements, orders).all());
    findings.addAll(Ambient.findings(bench, record));
    results.forEach(r -> findings.addAll(r.notes()));
    UnitVerdict verdict =
        UnitVerdict.of(record, bench, unit, tests, judgements, orders, judged.scope(travels));
    return new JudgedRun(
        record,
        bench,
        unit,
        procedure,
        tests,
        judgements,
        orders,
        readings(travels.stream().map(TravelTest::feedback).toList()),
        readings(travels.stream().map(TravelTest::stem).flatMap(Optional::stream).toList()),
        results.stream().flatMap(r -> r.traces().stream()).toList(),
        findings,
        verdict.word(),
        verdict.reason(),
        verdict.complete());
  }

  /** What a file of others holds beside the asked that speaks against a test's passes. */
  private static Optional<String> beside(
      JudgedBench judged, TestSpec test, Optional<Attempt> attempt, TestResult result) {
    if (test instanceof Holds) {
      return HeldBeside.moved(judged);
    }
    if (test instanceof StrokeTime) {
      return new StrokesBeside(judged, result.measures(), attempt).off();
    }
    return test instanceof Steps spec
        ? new StepsBeside(judged, spec, attempt).off()
        : Optional.empty();
  }

  /** How the unit scatters shows in the travel error tests and counts in every test. */
  private static JudgedBench knowing(JudgedBench judged, Procedure procedure, Attempts attempts) {
    List<TravelTest> travels = new ArrayList<>();
    for (int index = 0; index < procedure.tests().size(); index++) {
      if (procedure.tests().get(index) instanceof TravelError spec) {
        travels.add(TravelJudge.travel(judged, spec, attempts.counting(index, spec.name())));
      }
    }
    return judged.knowing(travels);
  }

  /** The one place that knows which class judges which test. */
  private static TestResult result(JudgedBench judged, TestSpec test, Optional<Attempt> attempt) {
    if (test instanceof TravelError spec) {
      return new TravelJudge(judged, spec, attempt).result();
    }
    if (test instanceof StrokeTime spec) {
      return TestResult.measures(new StrokeMeasures(judged, spec, attempt).all());
    }
    if (test instanceof SupplyVoltage) {
      return TestResult.measures(new SupplyMeasures(judged, attempt).all());
    }
    if (test instanceof Switches spec) {
      return new SwitchMeasures(judged, spec, attempt).result();
    }
    if (test instanceof SignalLoss spec) {
      return TestResult.orders(new LossMeasures(judged, spec, attempt).all());
    }
    if (test instanceof Holds spec) {
      return new HuntingMeasures(judged, spec, attempt).result();
    }
    if (test instanceof SlowRamp spec) {
      RampMeasures ramp = new RampMeasures(judged, spec, attempt);
      return TestResult.measures(ramp.all()).from(ramp.traces());
    }
    if (test instanceof DutyRun spec) {
      return new DutyMeasures(judged, spec, attempt).result();
    }
    if (test instanceof Endurance spec) {
      return TestResult.measures(new EnduranceMeasures(judged, spec, attempt).all());
    }
    if (test instanceof ByHand spec) {
      return new ByHandNotes(spec, attempt).result();
    }
    if (test instanceof Steps spec) {
      StepMeasures steps = new StepMeasures(judged, spec, attempt);
      return TestResult.measures(steps.all()).from(steps.traces());
    }
    if (test instanceof DeadBand spec) {
      MeasureKind kind = MeasureKind.DEAD_BAND;
      return new StairMeasures(judged, kind, spec.name(), spec.plan(), attempt).result();
    }
    if (test instanceof Resolution spec) {
      MeasureKind kind = MeasureKind.RESOLUTION;
      return new StairMeasures(judged, kind, spec.name(), spec.plan(), attempt).result();
    }
    if (test instanceof PowerLoss spec) {
      return new PowerLossMeasures(judged, spec, attempt).result();
    }
    return TestResult.nothing();
  }

  private static List<RestReading> readings(List<Taken> taken) {
    return taken.stream().flatMap(t -> t.readings().stream()).toList();
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
                "",
                truthOf(limit.measure()),
                "none",
                "no test of the procedure measures it");
        judgements.add(judgement(unit, none, Optional.of(limit)));
      }
    }
    return judgements;
  }

  private static Truth truthOf(MeasureKind kind) {
    boolean timed = kind.unit().equals("s") || kind == MeasureKind.STROKE_ASYMMETRY;
    return timed ? Truth.CLOCK : Truth.FEEDBACK;
  }

  private static boolean passes(UnitType unit, Measure measure) {
    Optional<Word> word = judgement(unit, measure, unit.limit(measure.kind())).word();
    return word.stream().anyMatch(w -> w == Word.PASS || w == Word.CONDITIONAL_PASS);
  }

  /** A measure held against its limit. */
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
