package org.benchstroke.tests.stroke;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.StrokeTiming;
import org.benchstroke.core.analysis.StrokeTiming.Timed;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Tie;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.Strokes;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TraverseMeasures;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** What one stroke time test says: both times, their asymmetry, and how evenly it went. */
public final class StrokeMeasures implements TestJudge {
  private static final String SCATTER = "scatter of the strokes, both ways pooled";

  private final JudgedBench judged;
  private final PositionBudget budget;
  private final StrokeTime spec;
  private final Optional<Chapter> attempt;

  public StrokeMeasures(JudgedBench judged, StrokeTime spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.budget = judged.budget(Truth.FEEDBACK);
    this.spec = spec;
    this.attempt = attempt;
  }

  @Override
  public TestResult result() {
    return TestResult.measures(all());
  }

  @Override
  public Optional<String> beside(TestResult result) {
    return new UnaskedStrokes(judged, result.measures(), attempt).off();
  }

  private List<Measure> all() {
    Measure opening = time(MeasureKind.STROKE_TIME_OPENING, true);
    Measure closing = time(MeasureKind.STROKE_TIME_CLOSING, false);
    List<Measure> all = new ArrayList<>(List.of(opening, closing, asymmetry(opening, closing)));
    all.addAll(new TraverseMeasures(judged, attempt).all());
    return all;
  }

  private Measure time(MeasureKind kind, boolean opening) {
    String method = "stroke-time/3";
    if (attempt.isEmpty()) {
      return Measures.none(
          kind, Location.whole(), Truth.CLOCK, method, "the test was not completed");
    }
    if (budget.instruments().lacking().isPresent()) {
      return Measures.none(
          kind, Location.whole(), Truth.CLOCK, method, budget.instruments().lacking().get());
    }
    List<StrokeTiming.Outcome> outcomes = new Strokes(judged).of(attempt.get(), opening);
    Optional<String> failed =
        outcomes.stream().map(StrokeTiming.Outcome::reason).filter(r -> !r.isEmpty()).findFirst();
    if (failed.isPresent() || outcomes.size() < spec.repeats()) {
      String counted = outcomes.size() + " of " + spec.repeats() + " strokes in the record";
      return Measures.none(kind, Location.whole(), Truth.CLOCK, method, failed.orElse(counted));
    }
    List<Timed> timed = outcomes.stream().map(o -> o.timed().orElseThrow()).toList();
    Spread spread = Spread.of(timed.stream().map(Timed::seconds).toList());
    String note = "n = " + spread.count() + ", 5 % to 95 % of the stroke ÷ 0.90" + switches();
    Measure mean =
        Measures.value(
            kind, Location.whole(), Truth.CLOCK, spread.mean(), components(timed), method, note);
    return spread.count() > 1 ? mean.of(Scope.UNIT) : mean;
  }

  /** They trip where they are set, which is not where the travel ends. */
  private String switches() {
    boolean read =
        judged
            .record()
            .events(Event.Sampled.class)
            .anyMatch(s -> s.channel().startsWith(Samples.SWITCH));
    return read ? "; by the position, not from end switch to end switch" : "";
  }

  private List<Component> components(List<Timed> timed) {
    double n = timed.size();
    double stamps = 0.0;
    double motion = 0.0;
    double noise = 0.0;
    double degrees = 0.0;
    for (Timed t : timed) {
      stamps += t.stampStandard() * t.stampStandard();
      motion += t.interpolationStandard() * t.interpolationStandard();
      noise += t.noiseStandard() * t.noiseStandard();
      degrees += t.noiseDegrees();
    }
    double perPercent =
        timed.stream().mapToDouble(Timed::secondsPerPercent).average().orElseThrow();
    List<Component> components = new ArrayList<>();
    double own = Math.sqrt(stamps + motion + noise) / n;
    Component between = scatter().times(1.0 / Math.sqrt(n));
    if (between.contribution() > own) {
      // What each stroke is uncertain by shows in their scatter: it counts once.
      components.add(between);
    } else {
      components.add(normal("stamps of the samples", Math.sqrt(stamps) / n));
      components.add(normal("motion between samples", Math.sqrt(motion) / n));
      components.add(Component.typeA("noise of the position", Math.sqrt(noise) / n, degrees));
    }
    for (double level : new double[] {5.0, 95.0}) {
      for (Component c : budget.instruments().meterAccuracy(level, perPercent)) {
        components.add(c.named(c.source() + " at " + Numbers.plain(level) + " %"));
      }
    }
    return components;
  }

  /** The scatter of one stroke, pooled over both ways (JCGM 100:2008 4.2.4). */
  private Component scatter() {
    double squares = 0.0;
    double degrees = 0.0;
    for (boolean opening : new boolean[] {true, false}) {
      List<Double> seconds =
          new Strokes(judged)
              .of(attempt.orElseThrow(), opening).stream()
                  .flatMap(o -> o.timed().stream())
                  .map(Timed::seconds)
                  .toList();
      if (seconds.size() > 1) {
        Spread spread = Spread.of(seconds);
        squares += (spread.count() - 1.0) * spread.deviation() * spread.deviation();
        degrees += spread.count() - 1.0;
      }
    }
    double deviation = degrees > 0.0 ? Math.sqrt(squares / degrees) : 0.0;
    return Component.typeA(SCATTER, deviation, Math.max(1.0, degrees))
        .tied(Tie.Kind.ONE_ESTIMATE, SCATTER);
  }

  /** A sum of bounds of several crossings, which is nearly normal. */
  private static Component normal(String source, double standard) {
    return new Component(
        source, Component.Evaluation.TYPE_B_NORMAL, standard, 1.0, Double.POSITIVE_INFINITY);
  }

  /** Both ways pass the same levels by the same transmitter: its accuracy cancels in the ratio. */
  private static Measure asymmetry(Measure opening, Measure closing) {
    MeasureKind kind = MeasureKind.STROKE_ASYMMETRY;
    String method = "stroke-asymmetry/2";
    if (opening.value().isEmpty() || closing.value().isEmpty()) {
      String why = opening.value().isEmpty() ? opening.note() : closing.note();
      return Measures.none(kind, Location.whole(), Truth.CLOCK, method, why);
    }
    double to = opening.value().get();
    double tc = closing.value().get();
    double mean = (to + tc) / 2.0;
    double value = Math.abs(to - tc) / mean * 100.0;
    double sign = to >= tc ? 1.0 : -1.0;
    double shared = value / (2.0 * mean);
    List<Component> components = new ArrayList<>();
    components.addAll(scaled(opening, "opening", sign * 100.0 / mean - shared));
    components.addAll(scaled(closing, "closing", -sign * 100.0 / mean - shared));
    return Measures.value(
            kind,
            Location.whole(),
            Truth.CLOCK,
            value,
            components,
            method,
            "|opening − closing| ÷ mean")
        .of(opening.scope());
  }

  private static List<Component> scaled(Measure measure, String which, double factor) {
    return measure.budget().map(Budget::components).orElse(List.of()).stream()
        .filter(c -> c.tie().kind() != Tie.Kind.ONE_INSTRUMENT)
        .map(c -> c.named(c.source() + ", " + which).in("s").times(factor))
        .toList();
  }
}
