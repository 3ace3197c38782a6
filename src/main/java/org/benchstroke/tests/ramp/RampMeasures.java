package org.benchstroke.tests.ramp;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.RampFollowing;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.DrawnErrors;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** How a unit follows a slow ramp, there and back. */
public final class RampMeasures implements TestJudge {
  private static final String METHOD = "ramp/3";
  private static final int LEAST_SETPOINTS = 30;
  private static final String NOISE = "noise of the position";
  private static final String CYCLES = "starts and stops not whole";

  /** Within so many deviations a difference may be chance. */
  private static final double CHANCE = 2.0;

  /** Of more than these the largest is no larger that matters. */
  private static final int MOST_EQUAL = 400;

  private final JudgedBench judged;
  private final Samples samples;
  private final PositionBudget budget;
  private final SlowRamp spec;
  private final Optional<Chapter> attempt;
  private final Lines lines;
  private final boolean done;

  public RampMeasures(JudgedBench judged, SlowRamp spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.samples = judged.samples();
    this.budget = judged.budget(Truth.FEEDBACK);
    this.spec = spec;
    this.attempt = attempt;
    this.lines = attempt.map(Chapter::lines).orElse(Lines.NONE);
    this.done = attempt.isPresent();
  }

  @Override
  public TestResult result() {
    return TestResult.measures(all()).from(traces());
  }

  private List<Measure> all() {
    List<Measure> measures = new ArrayList<>();
    measures.addAll(of(SlowRamp.Way.THERE, spec.to().percent() > spec.from().percent()));
    measures.addAll(of(SlowRamp.Way.BACK, spec.to().percent() < spec.from().percent()));
    return measures;
  }

  /** The ramps that the record holds, with or without a result. */
  private List<TestTrace.OfRamp> traces() {
    List<TestTrace.OfRamp> traces = new ArrayList<>();
    boolean rising = spec.to().percent() > spec.from().percent();
    watched(SlowRamp.Way.THERE).flatMap(w -> trace(place(rising), w)).ifPresent(traces::add);
    watched(SlowRamp.Way.BACK).flatMap(w -> trace(place(!rising), w)).ifPresent(traces::add);
    return traces;
  }

  private Optional<TestTrace.OfRamp> trace(Location place, Event.Watched watched) {
    Trace trace = position(watched);
    List<Event.Commanded> commands = commands(watched);
    if (commands.size() < LEAST_SETPOINTS) {
      return Optional.empty();
    }
    RampFollowing.Line line = line(commands);
    Optional<Trace> residual =
        unfit(trace, line, noise()).isPresent()
            ? Optional.empty()
            : Optional.of(following(trace, line, noise()).residuals(trace, line));
    return Optional.of(new TestTrace.OfRamp(place, trace, line, residual));
  }

  private static Location place(boolean rising) {
    return new Location.Way(rising ? Direction.UP : Direction.DOWN);
  }

  private Optional<Event.Watched> watched(SlowRamp.Way way) {
    return attempt.flatMap(a -> a.watched(way::equals).stream().reduce((first, last) -> last));
  }

  private Trace position(Event.Watched watched) {
    double from = Samples.seconds(watched.fromNanos());
    double to = Samples.seconds(watched.toNanos());
    return samples.position(lines).between(from, to);
  }

  private List<Event.Commanded> commands(Event.Watched watched) {
    return lines.all(Event.Commanded.class).stream()
        .filter(c -> c.askedNanos() >= watched.fromNanos())
        .filter(c -> c.answeredNanos() <= watched.toNanos())
        .toList();
  }

  private List<Measure> of(SlowRamp.Way way, boolean rising) {
    Location place = place(rising);
    if (!done || budget.instruments().lacking().isPresent()) {
      return none(place, budget.instruments().lacking().orElse("the test was not completed"));
    }
    Optional<Event.Watched> watched = watched(way);
    if (watched.isEmpty()) {
      return none(place, "the record holds no such ramp");
    }
    return of(place, watched.get());
  }

  private List<Measure> of(Location place, Event.Watched watched) {
    Trace trace = position(watched);
    List<Event.Commanded> commands = commands(watched);
    if (commands.size() < LEAST_SETPOINTS) {
      return none(place, "only " + commands.size() + " setpoints, at least " + LEAST_SETPOINTS);
    }
    RampFollowing.Line line = line(commands);
    PositionNoise noise = noise();
    Optional<String> unfit =
        TraceGuards.gapWithin(
                trace,
                Samples.seconds(watched.fromNanos()),
                Samples.seconds(watched.toNanos()),
                samples.longestPauseSeconds())
            .or(() -> unfit(trace, line, noise));
    return unfit.isPresent() ? none(place, unfit.get()) : measured(place, trace, line, noise);
  }

  private Optional<String> unfit(Trace trace, RampFollowing.Line line, PositionNoise noise) {
    return RampFollowing.unfit(trace, line)
        .or(
            () ->
                TraceGuards.impossibleSlew(
                    trace,
                    samples.fastestPercentPerSecond(),
                    noise.deviationPercent(),
                    samples.resolutionPercent()))
        .or(() -> judged.clockStep(trace, noise));
  }

  private PositionNoise noise() {
    return judged.positionNoise(samples.position(lines), lines.all(Event.Rested.class));
  }

  private List<Measure> measured(
      Location place, Trace trace, RampFollowing.Line line, PositionNoise noise) {
    RampFollowing ramp = following(trace, line, noise);
    double rate = Math.abs(line.percentPerSecond());
    String note =
        Numbers.fixed(rate, 2)
            + " %/s, scatter "
            + Numbers.significant(ramp.scatterPercent(), 2)
            + " %";
    List<Component> beside = residual(ramp, rate);
    List<Component> residual = new ArrayList<>();
    residual.add(Component.typeA(NOISE, noise.deviationPercent(), noise.degrees()));
    residual.addAll(beside);
    Measure largest =
        value(MeasureKind.RAMP_RESIDUAL, place, ramp.residualPercent(), residual, note);
    return List.of(
        value(MeasureKind.RAMP_LAG, place, ramp.lagSeconds(), lag(ramp, rate, noise), note),
        Measures.drawn(largest, half(ramp, beside, noise)),
        value(
            MeasureKind.RAMP_STARTS,
            place,
            ramp.startsPerMinute().value(),
            Measures.components(ramp.startsPerMinute()),
            note));
  }

  private RampFollowing following(Trace trace, RampFollowing.Line line, PositionNoise noise) {
    // One window knows its noise to a fifth; all rests of the run know it better.
    double usual = judged.noise(Truth.FEEDBACK).usual(judged.unit().practice().restSamples());
    double quiet = usual > 0.0 ? usual : noise.deviationPercent();
    double least = Math.max(6.0 * quiet, 2.0 * samples.resolutionPercent());
    double threshold = Math.max(least, judged.unit().practice().restBandPercent());
    return RampFollowing.of(trace, line, threshold);
  }

  /**
   * U of the largest distance, by draws: all positions whose distance from it may be chance count
   * as equal to it, for noise favours the largest of them.
   *
   * @param beside what it is uncertain by beside the noise
   */
  private double half(RampFollowing ramp, List<Component> beside, PositionNoise noise) {
    double one = noise.standard();
    double least = ramp.residualPercent() - CHANCE * Math.sqrt(2.0) * one;
    List<Component> reading =
        List.of(Component.typeA("one reading", one, Double.POSITIVE_INFINITY));
    List<List<Component>> inputs = new ArrayList<>();
    inputs.add(beside);
    ramp.behind().stream()
        .filter(d -> Math.abs(d) >= least)
        .limit(MOST_EQUAL)
        .forEach(d -> inputs.add(reading));
    return new DrawnErrors(inputs)
        .halfWidth(Budget.COVERAGE, e -> e[0] + Arrays.stream(e).skip(1).max().orElseThrow());
  }

  /** A position that is off by as much is late by that over the speed of the ramp. */
  private List<Component> lag(RampFollowing ramp, double rate, PositionNoise noise) {
    List<Component> components = new ArrayList<>();
    double middle = (spec.from().percent() + spec.to().percent()) / 2.0;
    for (Component c : budget.instruments().accuracy(middle, middle)) {
      components.add(c.in("%").times(1.0 / rate));
    }
    double mean =
        noise.deviationPercent() * Math.sqrt(noise.neighbours().shareOfMean(ramp.behind().size()));
    components.add(Component.typeA(NOISE, mean, noise.degrees()).in("%").times(1.0 / rate));
    components.add(
        Component.typeA(CYCLES, ramp.meanStandardPercent(), RampFollowing.BLOCKS - 1.0)
            .in("%")
            .times(1.0 / rate));
    return components;
  }

  /** A largest distance between two samples is missed by what the setpoint goes until the next. */
  private List<Component> residual(RampFollowing ramp, double rate) {
    double missed = rate * ramp.intervalSeconds() / Math.max(1.0, ramp.starts());
    return List.of(
        Component.rectangular("resolution", samples.resolutionPercent() / 2.0, 1.0),
        Component.rectangular("largest distance between samples", missed, 1.0),
        Component.typeA(CYCLES, ramp.meanStandardPercent(), RampFollowing.BLOCKS - 1.0));
  }

  /** The setpoint goes in steps: on the average it is half a step behind the line through them. */
  private RampFollowing.Line line(List<Event.Commanded> commands) {
    Event.Commanded first = commands.get(0);
    Event.Commanded last = commands.get(commands.size() - 1);
    double half = (instant(last) - instant(first)) / (commands.size() - 1.0) / 2.0;
    return new RampFollowing.Line(
        instant(first) + half, judged.asked(first), instant(last) + half, judged.asked(last));
  }

  private static double instant(Event.Commanded command) {
    return Samples.seconds(
        command.askedNanos() + (command.answeredNanos() - command.askedNanos()) / 2);
  }

  private static Measure value(
      MeasureKind kind, Location place, double value, List<Component> components, String note) {
    return Measures.value(kind, place, Truth.of(kind), value, components, METHOD, note);
  }

  private static List<Measure> none(Location place, String reason) {
    List<Measure> measures = new ArrayList<>();
    for (MeasureKind kind :
        List.of(MeasureKind.RAMP_LAG, MeasureKind.RAMP_RESIDUAL, MeasureKind.RAMP_STARTS)) {
      measures.add(Measures.none(kind, place, Truth.of(kind), METHOD, reason));
    }
    return measures;
  }
}
