package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.analysis.RestReading;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.Limit;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.bench.UnitType;
import org.benchstroke.instrument.Role;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.SignalLoss;
import org.benchstroke.procedure.StrokeTime;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.procedure.TravelError;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * Judges a record: the same record, bench, unit type and procedure always give the same judgement.
 * Stateless, safe for any thread.
 */
public final class RunJudge {
  static final String ONE_BOX = "source and readback are one box, which hides its own error";

  static final String BY_EYE = "stem read by eye and typed in, one reading at each point";

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
    Samples samples = new Samples(bench, unit);
    Attempts attempts = Attempts.of(record);
    List<Measure> measures = new ArrayList<>();
    List<AsOrdered> orders = new ArrayList<>();
    List<TravelTest> travels = new ArrayList<>();
    orders.add(new ActionMeasure(unit, samples).judge(record));
    for (int index = 0; index < procedure.tests().size(); index++) {
      TestSpec test = procedure.tests().get(index);
      Optional<Attempt> attempt = attempts.counting(index, test.name());
      if (test instanceof TravelError spec) {
        TravelTest travel = travel(bench, unit, samples, spec, attempt, record);
        travels.add(travel);
        measures.addAll(travelMeasures(bench, unit, travel));
      } else if (test instanceof StrokeTime spec) {
        PositionBudget budget = new PositionBudget(bench, unit, Truth.FEEDBACK);
        measures.addAll(new StrokeMeasures(samples, budget, spec, attempt).all());
      } else if (test instanceof SignalLoss spec) {
        orders.addAll(new LossMeasures(unit, samples, spec, attempt).all());
      }
    }
    List<Judgement> judgements = judgements(unit, measures);
    List<TestSummary> tests = attempts.summaries(procedure);
    UnitVerdict verdict = UnitVerdict.of(record, unit, tests, judgements, orders);
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
        new Findings(bench, unit, samples, travels, judgements, orders).all(),
        verdict.word(),
        verdict.reason(),
        verdict.complete());
  }

  private static TravelTest travel(
      BenchFile bench,
      UnitType unit,
      Samples samples,
      TravelError spec,
      Optional<Attempt> attempt,
      RunRecord record) {
    RecordReadings readings = new RecordReadings(unit, samples, spec, attempt);
    boolean stemRead = record.events(Event.Sampled.class).anyMatch(s -> s.channel().equals("stem"));
    boolean stem = stemRead && bench.playing(Role.ANGLE_REFERENCE).isPresent();
    return new TravelTest(
        attempt, readings.feedback(), stem ? Optional.of(stem(bench, readings)) : Optional.empty());
  }

  private static boolean stemByEye(BenchFile bench) {
    return bench.playing(Role.ANGLE_REFERENCE).map(InstrumentSpec::typedIn).orElse(false);
  }

  private static Taken stem(BenchFile bench, RecordReadings readings) {
    return stemByEye(bench) ? readings.stemByEye() : readings.stem();
  }

  private static List<Measure> travelMeasures(BenchFile bench, UnitType unit, TravelTest travel) {
    boolean oneBox = bench.playing(Role.LOOP_METER).isPresent() && bench.sourceReadsItself();
    String note = oneBox ? ONE_BOX : "";
    String stemNote = stemByEye(bench) ? (oneBox ? ONE_BOX + "; " : "") + BY_EYE : note;
    List<Measure> measures = new ArrayList<>();
    PositionBudget feedback = new PositionBudget(bench, unit, Truth.FEEDBACK);
    measures.addAll(new TravelMeasures(travel.feedback(), feedback, note).all());
    travel
        .stem()
        .map(
            taken ->
                new TravelMeasures(taken, new PositionBudget(bench, unit, Truth.STEM), stemNote))
        .ifPresent(stem -> measures.addAll(stem.all()));
    return measures;
  }

  private static List<RestReading> readings(List<Taken> taken) {
    return taken.stream().flatMap(t -> t.readings().stream()).toList();
  }

  /** All measures against their limits; a limit without any measure has no result. */
  private static List<Judgement> judgements(UnitType unit, List<Measure> measures) {
    List<Judgement> judgements = new ArrayList<>();
    for (Measure measure : measures) {
      judgements.add(judgement(measure, unit.limit(measure.kind())));
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
        judgements.add(judgement(none, Optional.of(limit)));
      }
    }
    return judgements;
  }

  private static Truth truthOf(MeasureKind kind) {
    return switch (kind) {
      case STROKE_TIME_OPENING, STROKE_TIME_CLOSING, STROKE_ASYMMETRY -> Truth.CLOCK;
      default -> Truth.FEEDBACK;
    };
  }

  private static Judgement judgement(Measure measure, Optional<Limit> limit) {
    if (limit.isEmpty()) {
      return new Judgement(measure, limit, Optional.empty(), OptionalDouble.empty());
    }
    if (measure.value().isEmpty() || measure.budget().isEmpty()) {
      return new Judgement(measure, limit, Optional.of(Word.NO_RESULT), OptionalDouble.empty());
    }
    Decision decision =
        Decision.judge(measure.value().get(), measure.budget().get().expand(), limit.get());
    return new Judgement(
        measure,
        limit,
        Optional.of(decision.word()),
        decision.word() == Word.NO_RESULT
            ? OptionalDouble.empty()
            : OptionalDouble.of(decision.probability()));
  }
}
