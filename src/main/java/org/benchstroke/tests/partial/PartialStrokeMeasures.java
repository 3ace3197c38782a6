package org.benchstroke.tests.partial;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.InstrumentBudget;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Estimate;
import org.benchstroke.core.analysis.Figure;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.RecordedStep;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.SupplyReadings;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Truth;
import org.benchstroke.tests.partial.PartialStroke.Part;
import org.benchstroke.tests.partial.PartialStroke.Way;
import org.benchstroke.unit.MeasureKind;

/**
 * What a partial stroke test says, of each cycle: when it broke away from its end, how far it went
 * and how long that and the way back took. By the feedback, and of the stem where an angle
 * reference is fitted; with the supply's sag where it is read.
 */
final class PartialStrokeMeasures implements TestJudge {
  static final String METHOD = "partial-stroke/1";

  private final JudgedBench judged;
  private final PartialStroke spec;
  private final Optional<Chapter> attempt;

  PartialStrokeMeasures(JudgedBench judged, PartialStroke spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
  }

  @Override
  public TestResult result() {
    ThereAndBack order = new ThereAndBack(judged, spec, attempt);
    List<Measure> measures = new ArrayList<>();
    List<TestTrace.OfStep> traces = new ArrayList<>();
    for (int cycle = 1; cycle <= spec.cycles(); cycle++) {
      for (Way way : Way.values()) {
        Answer answer = answer(way, cycle, Truth.FEEDBACK);
        measures.addAll(way == Way.OUT ? out(answer) : List.of(time(answer)));
        answer.trace().ifPresent(traces::add);
      }
      if (stemRead(judged)) {
        measures.addAll(ofStem(answer(Way.OUT, cycle, Truth.STEM)));
      }
    }
    if (judged.bounds(Role.SUPPLY_METER).isPresent()) {
      PartialStroke.Watch rest = PartialStroke.Watch.AT_END;
      measures.addAll(new SupplyReadings(judged, attempt, rest, spec.place(Way.OUT, 0)).all());
    }
    return TestResult.measures(measures).andOrders(order.all()).from(traces);
  }

  static boolean stemRead(JudgedBench judged) {
    return judged.bench().playing(Role.ANGLE_REFERENCE).isPresent()
        && !judged.byEye(Role.ANGLE_REFERENCE);
  }

  /** Why a step shows nothing, in words. */
  static Optional<String> unfit(JudgedBench judged, RecordedStep step) {
    double commanded = Samples.seconds(step.at().answeredNanos());
    Trace moving = step.trace().between(commanded, Double.POSITIVE_INFINITY);
    Optional<String> frozen =
        step.truth() == Truth.STEM
            ? Optional.empty()
            : TraceGuards.frozen(moving, judged.unit().practice().restSamples());
    return step.unfit(judged).or(() -> frozen);
  }

  /**
   * How it answered one command.
   *
   * @param place where its measures are of
   * @param truth by what the position was known
   * @param trace what it was taken from; empty if the record holds none
   * @param lacking why there is no response; empty exactly if there is one
   */
  private record Answer(
      Way way, Location place, Truth truth, Optional<TestTrace.OfStep> trace, String lacking) {
    StepResponse response() {
      return trace.flatMap(TestTrace.OfStep::response).orElseThrow();
    }
  }

  private Answer answer(Way way, int cycle, Truth truth) {
    Location place = spec.place(way, cycle);
    Optional<RecordedStep> step =
        attempt.flatMap(a -> RecordedStep.of(judged, a, new Part(way, cycle), truth));
    Optional<String> lacking = judged.budget(truth).instruments().lacking();
    if (step.isEmpty() || lacking.isPresent()) {
      String missing =
          attempt.isEmpty() ? "the test was not completed" : "the record holds no such stroke";
      return new Answer(way, place, truth, Optional.empty(), lacking.orElse(missing));
    }
    Optional<String> unfit = unfit(judged, step.get());
    TestTrace.OfStep trace = trace(place, step.get(), unfit.isEmpty());
    return new Answer(way, place, truth, Optional.of(trace), unfit.orElse(""));
  }

  private TestTrace.OfStep trace(Location place, RecordedStep recorded, boolean fit) {
    Step step = recorded.step(judged, judged.unit().deadBandPercent());
    Optional<StepResponse> response =
        fit ? Optional.of(StepResponse.of(recorded.trace(), step)) : Optional.empty();
    return new TestTrace.OfStep(place, recorded.trace(), step, response);
  }

  private List<Measure> out(Answer answer) {
    return List.of(breakaway(answer), travel(answer), error(answer), time(answer));
  }

  private List<Measure> ofStem(Answer answer) {
    return List.of(breakaway(answer), travel(answer));
  }

  private Measure breakaway(Answer answer) {
    MeasureKind kind = MeasureKind.BREAKAWAY_TIME;
    if (!answer.lacking().isEmpty()) {
      return none(kind, answer, answer.lacking());
    }
    StepResponse response = answer.response();
    double threshold = response.thresholdPercent();
    String note =
        "from the command until it had left its end by "
            + Numbers.significant(threshold, 2)
            + " %, what noise can't reach";
    return time(kind, answer, response.deadTime(), spec.from(), threshold, note);
  }

  private Measure time(Answer answer) {
    boolean out = answer.way() == Way.OUT;
    MeasureKind kind =
        out ? MeasureKind.PARTIAL_STROKE_TIME : MeasureKind.PARTIAL_STROKE_RETURN_TIME;
    if (!answer.lacking().isEmpty()) {
      return none(kind, answer, answer.lacking());
    }
    double band = judged.unit().deadBandPercent();
    String note =
        "from the command until within ±" + Numbers.plain(band) + " % of its rest for good";
    Position rest = out ? spec.to() : spec.from();
    return time(kind, answer, answer.response().settling(), rest, band, note);
  }

  /**
   * The time of a level that is so far from where the unit rests: what the meter is off by there
   * cancels but for what it changes in between.
   */
  private Measure time(
      MeasureKind kind, Answer answer, Figure figure, Position rest, double distance, String note) {
    if (!figure.isPresent()) {
      return none(kind, answer, figure.reason());
    }
    Estimate estimate = figure.estimate().orElseThrow();
    List<Component> components = Measures.components(estimate);
    InstrumentBudget instruments = judged.budget(answer.truth()).instruments();
    for (Component c : instruments.meterBetween(rest.percent(), rest.percent() + distance)) {
      components.add(c.inMeasure("%").times(estimate.perPercent()));
    }
    return Measures.value(
        kind, answer.place(), truth(kind, answer), estimate.value(), components, METHOD, note);
  }

  /** From where it stood to where it came to rest: what the meter is off by everywhere cancels. */
  private Measure travel(Answer answer) {
    MeasureKind kind = MeasureKind.PARTIAL_STROKE_TRAVEL;
    if (!answer.lacking().isEmpty()) {
      return none(kind, answer, answer.lacking());
    }
    Figure begin = answer.response().start();
    Figure end = answer.response().finish();
    for (Figure figure : List.of(begin, end)) {
      if (!figure.isPresent()) {
        return none(kind, answer, figure.reason());
      }
    }
    PositionBudget budget = judged.budget(answer.truth());
    List<Component> components = new ArrayList<>();
    components.addAll(at(spec.from(), begin));
    components.addAll(at(spec.to(), end));
    components.addAll(budget.instruments().meterBetween(begin.value(), end.value()));
    for (Direction direction : Direction.values()) {
      for (Component creep : budget.creep(direction)) {
        components.add(creep.named(creep.source() + ", " + direction.text()));
      }
    }
    double sign = spec.to().percent() > spec.from().percent() ? 1.0 : -1.0;
    double value = sign * (end.value() - begin.value());
    return Measures.value(
        kind, answer.place(), answer.truth(), value, components, METHOD, "from rest to rest");
  }

  private static List<Component> at(Position place, Figure figure) {
    List<Component> components = Measures.components(figure.estimate().orElseThrow());
    return PositionBudget.placed(components, place.toString(), 1.0);
  }

  private Measure error(Answer answer) {
    MeasureKind kind = MeasureKind.STEADY_STATE_ERROR;
    if (!answer.lacking().isEmpty()) {
      return none(kind, answer, answer.lacking());
    }
    Figure figure = answer.response().steadyStateError();
    if (!figure.isPresent()) {
      return none(kind, answer, figure.reason());
    }
    double setpoint = spec.to().percent();
    PositionBudget budget = judged.budget(answer.truth());
    List<Component> components = Measures.components(figure.estimate().orElseThrow());
    components.addAll(budget.instruments().accuracy(setpoint, setpoint + figure.value()));
    components.addAll(budget.instruments().sourceStep(setpoint));
    boolean up = setpoint > spec.from().percent();
    components.addAll(budget.creep(up ? Direction.UP : Direction.DOWN));
    return Measures.value(
        kind, answer.place(), answer.truth(), figure.value(), components, METHOD, "");
  }

  private static Measure none(MeasureKind kind, Answer answer, String reason) {
    return Measures.none(kind, answer.place(), truth(kind, answer), METHOD, reason);
  }

  /** A time is of the clock on samples of the feedback; of the stem it says so. */
  private static Truth truth(MeasureKind kind, Answer answer) {
    return answer.truth() == Truth.FEEDBACK ? Truth.of(kind) : answer.truth();
  }
}
