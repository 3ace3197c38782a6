package org.benchstroke.tests.endurance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.StraightLine;
import org.benchstroke.core.analysis.StrokeTiming;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.Strokes;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Truth;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Aim.Stroke.Way;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/**
 * Whether a unit changes over many strokes: the slope of a line through what each of them gave, per
 * 100 cycles. What the instruments are off by is the same in all of them and cancels.
 */
public final class EnduranceMeasures implements TestJudge {
  private static final String METHOD = "endurance/1";
  private static final int PER = 100;

  /** Fewer whole strokes tell no slope. */
  private static final int LEAST = 8;

  private final JudgedBench judged;
  private final Samples samples;
  private final Endurance spec;
  private final Optional<Chapter> attempt;

  public EnduranceMeasures(JudgedBench judged, Endurance spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.samples = judged.samples();
    this.spec = spec;
    this.attempt = attempt;
  }

  @Override
  public TestResult result() {
    return TestResult.measures(all());
  }

  private List<Measure> all() {
    return List.of(time(true), time(false), position(true), position(false));
  }

  private Measure time(boolean opening) {
    MeasureKind kind = MeasureKind.STROKE_TIME_DRIFT;
    Location place = new Location.FullStroke(opening);
    List<double[]> points = new ArrayList<>();
    int cycle = 0;
    double stamp = 0.0;
    for (StrokeTiming.Outcome each : strokes(opening)) {
      cycle++;
      if (each.timed().isPresent()) {
        points.add(new double[] {cycle, each.timed().get().seconds()});
        stamp = Math.max(stamp, Math.sqrt(3.0) * each.timed().get().stampStandard());
      } else if (!each.damaged()) {
        String why = "cycle " + cycle + ": " + each.reason();
        return Measures.none(kind, place, Truth.CLOCK, METHOD, why);
      }
    }
    return drift(kind, place, Truth.CLOCK, points, stamp);
  }

  private Measure position(boolean open) {
    MeasureKind kind = MeasureKind.END_POSITION_DRIFT;
    Location place = new Location.TravelEnd(open);
    Way way = open ? Way.OPENING : Way.CLOSING;
    Trace trace = samples.position(attempt.map(Chapter::lines).orElse(Lines.NONE));
    List<double[]> points = new ArrayList<>();
    List<Event.Rested> rests =
        attempt
            .map(a -> a.arrivals(aim -> aim instanceof Aim.Stroke s && s.way() == way))
            .orElse(List.of())
            .stream()
            .map(RestWait::found)
            .toList();
    for (Event.Rested rested : rests) {
      if (!rested.settled()) {
        String why = "cycle " + rested.cycle() + ": it did not come to rest";
        return Measures.none(kind, place, Truth.FEEDBACK, METHOD, why);
      }
      Trace window =
          trace.between(Samples.seconds(rested.fromNanos()), Samples.seconds(rested.toNanos()));
      if (!window.isEmpty() && TraceGuards.saturated(window).isEmpty()) {
        points.add(new double[] {rested.cycle(), window.spread().mean()});
      }
    }
    return drift(kind, place, Truth.FEEDBACK, points, samples.resolutionPercent());
  }

  /**
   * What a line can hide between its ends: the step of a position, the length of the exchange that
   * stamps a time. The rest shows in the scatter.
   */
  private Measure drift(
      MeasureKind kind, Location place, Truth truth, List<double[]> points, double step) {
    String whole = points.size() + " of " + spec.cycles() + " strokes whole";
    if (attempt.isEmpty() || points.size() < Math.max(LEAST, spec.cycles() / 2)) {
      String why = attempt.isEmpty() ? "the test was not completed" : "only " + whole;
      return Measures.none(kind, place, truth, METHOD, why);
    }
    double[] x = points.stream().mapToDouble(p -> p[0]).toArray();
    double[] y = points.stream().mapToDouble(p -> p[1]).toArray();
    StraightLine line = StraightLine.fit(x, y);
    Component slope =
        Component.typeA(
            "slope of the line, its scatter", PER * line.slopeStandard(), line.degreesOfFreedom());
    double cycles = x[x.length - 1] - x[0];
    Component bound =
        Component.rectangular("step of a figure, at both ends", PER * step / cycles, 1.0);
    List<Component> components = List.of(slope, bound);
    return Measures.value(kind, place, truth, PER * line.slope(), components, METHOD, whole)
        .of(Scope.UNIT);
  }

  private List<StrokeTiming.Outcome> strokes(boolean opening) {
    return attempt.map(a -> new Strokes(judged).of(a, opening)).orElse(List.of());
  }
}
