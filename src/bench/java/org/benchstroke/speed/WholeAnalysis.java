package org.benchstroke.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.Figure;
import org.benchstroke.core.analysis.Hunting;
import org.benchstroke.core.analysis.Linearity;
import org.benchstroke.core.analysis.MotionMeter;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.analysis.StepShape;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;

/** Analyses a made-up trace as the judge analyses a record's. Stateless. */
final class WholeAnalysis {
  static final List<String> STEP_MEASURES =
      List.of(
          "start",
          "finish",
          "dead time",
          "first motion",
          "T63",
          "T86",
          "T98",
          "rise",
          "time ratio",
          "overshoot",
          "overshoot of travel",
          "settling",
          "steady-state error",
          "slew");
  static final List<String> STATIC_MEASURES =
      List.of(
          "zero error",
          "span error",
          "hysteresis + dead band",
          "the same of adjacent passes",
          "repeatability",
          "pooled deviation",
          "independent linearity",
          "terminal linearity",
          "zero-based linearity");

  private static final double BEFORE_SECONDS = 2.0;
  private static final int REST_SAMPLES = 20;
  private static final double BAND = 1.0;
  private static final double LONGEST_PAUSE = 0.15;
  private static final double LEAST_MOTION = 0.1;
  private static final double DWELL_SECONDS = 0.5;
  private static final double FASTEST_CYCLE_SECONDS = 2.0;
  private static final double SETTLED_AFTER_SECONDS = 15.0;

  private WholeAnalysis() {}

  /** The measures of every step, one after the other, then the static ones. */
  static double[] stepAndStatic(MadeUpTrace made) {
    int width = STEP_MEASURES.size();
    double[] measured = new double[made.steps().size() * width + STATIC_MEASURES.size()];
    List<RestReading> readings = new ArrayList<>();
    for (int i = 0; i < made.steps().size(); i++) {
      Trace around = around(made, i, made.steps().get(i).seconds() - BEFORE_SECONDS);
      step(made.steps().get(i), around, measured, i * width);
      readings.add(reading(made.steps().get(i), around.last(REST_SAMPLES).spread()));
    }
    statics(new StaticCharacteristic(readings), measured, made.steps().size() * width);
    return measured;
  }

  private static Trace around(MadeUpTrace made, int step, double from) {
    boolean last = step == made.steps().size() - 1;
    double to = last ? Double.POSITIVE_INFINITY : made.steps().get(step + 1).seconds();
    return made.trace().between(from, Math.nextDown(to));
  }

  private static void step(MadeUpTrace.Change change, Trace trace, double[] into, int at) {
    double deviation = trace.last(REST_SAMPLES).spread().deviation();
    PositionNoise noise = new PositionNoise(deviation, MadeUpTrace.RESOLUTION);
    if (TraceGuards.impossibleSlew(trace, MadeUpTrace.FASTEST, deviation, MadeUpTrace.RESOLUTION)
        .isPresent()) {
      throw new IllegalStateException("an impossible slew");
    }
    StepResponse response = StepResponse.of(trace, step(change, noise));
    List<Figure> figures =
        List.of(
            response.start(),
            response.finish(),
            response.deadTime(),
            response.firstMotion(),
            response.t63(),
            response.t86(),
            response.t98(),
            response.rise(),
            response.timeRatio(),
            response.overshoot(),
            response.overshootOfTravel(),
            response.settling(),
            response.steadyStateError(),
            response.slew());
    for (int i = 0; i < figures.size(); i++) {
      if (!figures.get(i).isPresent()) {
        throw new IllegalStateException(
            STEP_MEASURES.get(i)
                + " of the step at "
                + change.seconds()
                + " s: "
                + figures.get(i).reason());
      }
      into[at + i] = figures.get(i).value();
    }
  }

  private static Step step(MadeUpTrace.Change change, PositionNoise noise) {
    return new Step(
        change.seconds(), 0.001, change.from(), change.to(), BAND, noise, LONGEST_PAUSE);
  }

  /** Names the shapes of the first responses; gives how many were explained. */
  static long shapes(MadeUpTrace made, int steps) {
    return IntStream.range(0, steps)
        .filter(
            i -> {
              Trace trace = around(made, i, made.steps().get(i).seconds() - BEFORE_SECONDS);
              double deviation = trace.last(REST_SAMPLES).spread().deviation();
              Step step =
                  step(made.steps().get(i), new PositionNoise(deviation, MadeUpTrace.RESOLUTION));
              return StepShape.of(trace, step, StepResponse.of(trace, step)).explained();
            })
        .count();
  }

  private static RestReading reading(MadeUpTrace.Change change, Spread spread) {
    return new RestReading(
        change.to(),
        change.to() > change.from() ? Direction.UP : Direction.DOWN,
        1,
        spread.mean(),
        spread.deviation(),
        spread.count());
  }

  private static void statics(StaticCharacteristic unit, double[] into, int at) {
    List<Linearity.Point> curve = unit.averageCurve();
    List<OptionalDouble> measures =
        List.of(
            unit.zeroError(),
            unit.spanError(),
            OptionalDouble.of(unit.hysteresisPlusDeadBand(Pairing.MEANS).orElseThrow().percent()),
            OptionalDouble.of(
                unit.hysteresisPlusDeadBand(Pairing.ADJACENT_PASSES).orElseThrow().percent()),
            unit.repeatabilityRange(),
            unit.pooledDeviation(),
            OptionalDouble.of(Linearity.independent(curve).deviation()),
            OptionalDouble.of(Math.abs(Linearity.terminal(curve).deviation())),
            OptionalDouble.of(Math.abs(Linearity.zeroBased(curve).deviation())));
    for (int i = 0; i < measures.size(); i++) {
      into[at + i] = measures.get(i).orElseThrow();
    }
  }

  /** Starts over the whole trace, and turns while the setpoint was held: both must be few. */
  static int motionAndHunting(MadeUpTrace made) {
    MotionMeter meter = new MotionMeter(LEAST_MOTION, DWELL_SECONDS);
    for (int i = 0; i < made.trace().size(); i++) {
      meter.add(made.trace().seconds(i), made.trace().percent(i));
    }
    int turns = 0;
    for (int i = 0; i < made.steps().size(); i++) {
      Trace held = around(made, i, made.steps().get(i).seconds() + SETTLED_AFTER_SECONDS);
      PositionNoise noise =
          new PositionNoise(held.last(REST_SAMPLES).spread().deviation(), MadeUpTrace.RESOLUTION);
      turns +=
          Hunting.of(held, noise, LEAST_MOTION, FASTEST_CYCLE_SECONDS, MadeUpTrace.SPEED).turns();
    }
    return meter.starts() + turns;
  }
}
