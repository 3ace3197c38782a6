package org.benchstroke.tests.steps;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Estimate;
import org.benchstroke.core.analysis.Figure;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.analysis.StepShape;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.RecordedStep;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** The measures of a step response test, for each step up and down. */
final class StepMeasures implements TestJudge {
  private static final String METHOD = "step-response/3";

  private final JudgedBench judged;
  private final PositionBudget budget;
  private final Steps spec;
  private final Optional<Chapter> attempt;

  StepMeasures(JudgedBench judged, Steps spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.budget = judged.budget(Truth.FEEDBACK);
    this.spec = spec;
    this.attempt = attempt;
  }

  @Override
  public TestResult result() {
    return TestResult.measures(all()).from(traces());
  }

  @Override
  public Optional<String> beside(TestResult result) {
    return new UnaskedSteps(judged, spec, this).off();
  }

  private List<Measure> all() {
    List<Measure> measures = new ArrayList<>();
    for (double size : spec.sizes()) {
      for (Direction direction : Direction.values()) {
        measures.addAll(of(size, direction));
      }
    }
    return measures;
  }

  /** The steps that the record holds, with or without a result. */
  private List<TestTrace.OfStep> traces() {
    List<TestTrace.OfStep> traces = new ArrayList<>();
    for (double size : spec.sizes()) {
      for (Direction direction : Direction.values()) {
        recorded(new Steps.Change(size, direction))
            .ifPresent(r -> traces.add(seen(new Steps.Change(size, direction).location(), r)));
      }
    }
    return traces;
  }

  private TestTrace.OfStep seen(Location place, RecordedStep recorded) {
    Step step = step(recorded);
    boolean unfit =
        budget.instruments().lacking().isPresent() || recorded.unfit(judged).isPresent();
    Optional<StepResponse> response =
        unfit ? Optional.empty() : Optional.of(StepResponse.of(recorded.trace(), step));
    return new TestTrace.OfStep(place, recorded.trace(), step, response);
  }

  /** What a step that was not asked for says, of whatever size; nothing where it can't be told. */
  List<Measure> beside(RecordedStep recorded) {
    double change = recorded.at().setpointPercent() - recorded.before().setpointPercent();
    boolean unfit =
        budget.instruments().lacking().isPresent() || recorded.unfit(judged).isPresent();
    Steps.Change step =
        new Steps.Change(Math.abs(change), change > 0.0 ? Direction.UP : Direction.DOWN);
    Location place = step.location();
    return unfit ? List.of() : measured(place, step, recorded);
  }

  private List<Measure> of(double size, Direction direction) {
    Location place = new Steps.Change(size, direction).location();
    Optional<String> lacking =
        attempt.isEmpty()
            ? Optional.of("the test was not completed")
            : budget.instruments().lacking();
    Optional<RecordedStep> recorded = recorded(new Steps.Change(size, direction));
    if (lacking.isPresent() || recorded.isEmpty()) {
      return none(place, lacking.orElse("the record holds no such step"));
    }
    Optional<String> unfit = recorded.get().unfit(judged);
    if (unfit.isPresent()) {
      return none(place, unfit.get());
    }
    return measured(place, new Steps.Change(size, direction), recorded.get());
  }

  private Step step(RecordedStep recorded) {
    return recorded.step(judged, spec.band().orElse(judged.unit().deadBandPercent()));
  }

  private List<Measure> measured(Location place, Steps.Change change, RecordedStep recorded) {
    Event.Commanded at = recorded.at();
    Step step = step(recorded);
    StepResponse response = StepResponse.of(recorded.trace(), step);
    boolean within = change.sizePercent() <= 2.0 * judged.unit().deadBandPercent();
    if (within && stood(recorded.trace(), response)) {
      // A unit that stands still within its dead band has no response; where it stands counts.
      Figure error = response.steadyStateError();
      return List.of(
          measure(MeasureKind.STEADY_STATE_ERROR, place, change, error, at.setpointPercent(), ""));
    }
    List<Measure> measures = new ArrayList<>();
    String settled = "within ±" + Numbers.plain(step.bandPercent()) + " % for good";
    Map<MeasureKind, String> notes = new LinkedHashMap<>();
    notes.put(MeasureKind.STEP_T63, shape(recorded.trace(), step, response));
    notes.put(MeasureKind.STEP_SETTLING, settled + whichSwing(response.settling()));
    figures(response)
        .forEach(
            (kind, figure) ->
                measures.add(
                    measure(
                        kind,
                        place,
                        change,
                        figure,
                        at.setpointPercent(),
                        notes.getOrDefault(kind, ""))));
    return measures;
  }

  /** Whether it was seen to stand still: what a gap or a range's end may hide doesn't count. */
  private boolean stood(Trace trace, StepResponse response) {
    return !response.deadTime().isPresent()
        && response.start().isPresent()
        && response.finish().isPresent()
        && Math.abs(response.finish().value() - response.start().value())
            <= response.thresholdPercent()
        && TraceGuards.gap(trace, judged.samples().longestPauseSeconds()).isEmpty()
        && TraceGuards.saturated(trace).isEmpty();
  }

  private static Map<MeasureKind, Figure> figures(StepResponse response) {
    Map<MeasureKind, Figure> figures = new LinkedHashMap<>();
    figures.put(MeasureKind.DEAD_TIME, response.deadTime());
    figures.put(MeasureKind.STEP_T63, response.t63());
    figures.put(MeasureKind.STEP_T86, response.t86());
    figures.put(MeasureKind.STEP_T98, response.t98());
    figures.put(MeasureKind.STEP_OVERSHOOT, response.overshootOfTravel());
    figures.put(MeasureKind.STEP_SETTLING, response.settling());
    figures.put(MeasureKind.STEADY_STATE_ERROR, response.steadyStateError());
    figures.put(MeasureKind.SLEW, response.slew());
    return figures;
  }

  private Measure measure(
      MeasureKind kind,
      Location place,
      Steps.Change change,
      Figure figure,
      double setpoint,
      String note) {
    if (!figure.isPresent()) {
      return Measures.none(kind, place, Truth.of(kind), METHOD, figure.reason());
    }
    Estimate estimate = figure.estimate().orElseThrow();
    List<Component> components = Measures.components(estimate);
    if (kind == MeasureKind.STEADY_STATE_ERROR) {
      components.addAll(budget.instruments().accuracy(setpoint, setpoint + estimate.value()));
      components.addAll(budget.creep(change.direction()));
    } else {
      components.addAll(budget.instruments().meterAccuracy(setpoint, estimate.perPercent()));
    }
    return Measures.value(kind, place, Truth.of(kind), estimate.value(), components, METHOD, note);
  }

  /** Where noise decides which swing leaves the band last, the value lies between both. */
  private static String whichSwing(Figure settling) {
    boolean open =
        settling.estimate().map(Estimate::parts).orElse(List.of()).stream()
            .anyMatch(part -> part.origin() == Estimate.Origin.WHICH_SWING);
    return open ? "; it crosses the edge of the band within the noise: U covers that" : "";
  }

  private static String shape(Trace trace, Step step, StepResponse response) {
    StepShape shape = StepShape.of(trace, step, response);
    String ratio =
        response.timeRatio().isPresent()
            ? ", T63 ÷ T86 " + Numbers.fixed(response.timeRatio().value(), 2)
            : "";
    if (shape.best().isEmpty() || !shape.explained()) {
      return "no simple shape: " + shape.reason() + ratio;
    }
    return shape.best().get().kind().text()
        + ", residual "
        + Numbers.significant(shape.best().get().residualPercent(), 1)
        + " %"
        + ratio;
  }

  private Optional<RecordedStep> recorded(Steps.Change step) {
    return attempt.flatMap(a -> RecordedStep.of(judged, a, step, Truth.FEEDBACK));
  }

  private static List<Measure> none(Location place, String reason) {
    List<Measure> measures = new ArrayList<>();
    for (MeasureKind kind :
        List.of(
            MeasureKind.DEAD_TIME,
            MeasureKind.STEP_T63,
            MeasureKind.STEP_T86,
            MeasureKind.STEP_T98,
            MeasureKind.STEP_OVERSHOOT,
            MeasureKind.STEP_SETTLING,
            MeasureKind.STEADY_STATE_ERROR,
            MeasureKind.SLEW)) {
      measures.add(Measures.none(kind, place, Truth.of(kind), METHOD, reason));
    }
    return measures;
  }
}
