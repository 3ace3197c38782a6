package org.benchstroke.core.analysis;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.benchstroke.core.analysis.Estimate.Part;
import org.benchstroke.core.quantity.Numbers;

/** The working of {@link StepResponse}. One thread. */
final class StepAnalysis {
  /**
   * Motion is a departure of 5 deviations and 2 steps of the reading: IEC 60534-9 asks for 3 and 2
   * at least (from memory).
   */
  private static final double MOTION_DEVIATIONS = 5.0;

  private static final double MOTION_STEPS = 2.0;

  /** A level this close to either end of the change, in deviations, is lost in the noise. */
  private static final double CLEAR_OF_NOISE = 3.0;

  /** A change below this many deviations bears no figure. */
  private static final double LEAST_CHANGE = 10.0;

  /** A time of fewer sample intervals than this is not measured; common practice, no source. */
  static final double LEAST_INTERVALS = 3.0;

  private final Trace trace;
  private final Step step;
  private final double sign;
  private final double threshold;
  private final CrossingFinder finder;
  private final Rest start;
  private final Rest finish;
  private final int first;

  private StepAnalysis(Trace trace, Step step, Rest start, Rest finish, int first) {
    this.trace = trace;
    this.step = step;
    this.sign = step.sign();
    this.threshold = threshold(step.noise());
    this.finder = new CrossingFinder(trace, step.noise());
    this.start = start;
    this.finish = finish;
    this.first = first;
  }

  private static double threshold(PositionNoise noise) {
    double least = Math.ulp(100.0) * 1.0e3;
    return Math.max(
        least,
        Math.max(MOTION_DEVIATIONS * noise.standard(), MOTION_STEPS * noise.resolutionPercent()));
  }

  static StepResponse of(Trace trace, Step step) {
    double threshold = threshold(step.noise());
    int first = trace.indexAt(step.seconds());
    Optional<Rest> start = Rest.before(trace.first(first), step);
    Optional<Rest> finish = Rest.atEndOf(trace.slice(first, trace.size()), step);
    if (start.isEmpty() || finish.isEmpty()) {
      String which = start.isEmpty() ? "before" : "after";
      String reason = "too few positions were read " + which + " the step";
      return none(reason, step, start, finish, threshold);
    }
    StepAnalysis analysis = new StepAnalysis(trace, step, start.get(), finish.get(), first);
    Optional<String> unfit = analysis.unfit();
    return unfit
        .map(reason -> none(reason, step, start, finish, threshold))
        .orElseGet(analysis::response);
  }

  private static StepResponse none(
      String reason, Step step, Optional<Rest> start, Optional<Rest> finish, double threshold) {
    Figure no = Figure.absent(reason);
    return StepResponse.none(
        reason,
        start.map(r -> r.less(0.0)).orElse(no),
        finish.map(r -> r.less(0.0)).orElse(no),
        finish.map(r -> r.less(step.toPercent())).orElse(no),
        threshold);
  }

  /** Why there was no response to measure. */
  private Optional<String> unfit() {
    if (start.unrest().isPresent()) {
      return start.unrest();
    }
    double furthest = 0.0;
    double opposite = 0.0;
    for (int i = first; i < trace.size(); i++) {
      double departure = sign * (trace.percent(i) - start.percent());
      furthest = Math.max(furthest, departure);
      opposite = Math.max(opposite, -departure);
    }
    double least = Math.max(threshold, LEAST_CHANGE * step.noise().standard());
    if (change() < 0.0 && opposite >= least) {
      return Optional.of("it moved the other way, by " + Numbers.significant(opposite, 2) + " %");
    }
    if (furthest < threshold) {
      return Optional.of("it did not move");
    }
    if (Math.max(change(), finish.unrest().isPresent() ? furthest : 0.0) < least) {
      return Optional.of(
          "it moved by no more than "
              + Numbers.significant(furthest, 2)
              + " %, which is lost in the noise");
    }
    return Optional.empty();
  }

  private double change() {
    return sign * (finish.percent() - start.percent());
  }

  private StepResponse response() {
    StepLevels levels = new StepLevels(trace, step, start, finish, first, finder);
    Figure dead = levels.deadTime(threshold);
    Figure firstMotion = levels.firstMotion(threshold);
    Figure t63 = levels.time(1.0 - Math.exp(-1.0), "63 %");
    Figure t86 = levels.time(1.0 - Math.exp(-2.0), "86 %");
    Figure t98 = levels.time(0.98, "98 %");
    Figure rise = levels.rise(0.1, 0.9);
    StepEnd end = new StepEnd(trace, step, start, finish, levels.middle(), finder);
    Figure overshoot = end.overshoot();
    StepSlew.Fastest slew = new StepSlew(trace, step, rise, levels).fastest();
    return new StepResponse(
        start.less(0.0),
        finish.less(0.0),
        dead,
        firstMotion,
        t63,
        t86,
        t98,
        rise,
        ratio(dead, t63, t86),
        end.ofChange(overshoot),
        overshoot,
        end.settling(),
        steadyStateError(),
        slew.figure(),
        threshold,
        slew.windowSeconds());
  }

  private Figure steadyStateError() {
    return finish.less(step.toPercent());
  }

  static boolean lostInNoise(double share, double change, PositionNoise noise) {
    double least = Math.max(CLEAR_OF_NOISE * noise.standard(), noise.resolutionPercent());
    return Math.min(share, 1.0 - share) * change < least;
  }

  private static Figure ratio(Figure dead, Figure t63, Figure t86) {
    for (Figure needed : List.of(dead, t63, t86)) {
      if (!needed.isPresent()) {
        return needed;
      }
    }
    double d = dead.value();
    double span = t86.value() - d;
    if (!(span > 0.0) || !(t63.value() > d)) {
      return Figure.absent("sampling insufficient: dead time and T63 can't be told apart");
    }
    double ratio = (t63.value() - d) / span;
    double by63 = t63.estimate().orElseThrow().standard() / span;
    double by86 = t86.estimate().orElseThrow().standard() * ratio / span;
    double byDead = dead.estimate().orElseThrow().standard() * (1.0 - ratio) / span;
    return Figure.of(
        new Estimate(
            ratio,
            List.of(
                Part.normal("T63", by63),
                Part.normal("T86", by86),
                Part.normal("dead time", byDead)),
            0.0));
  }

  /** The first index at or after {@code from} whose departure reaches a level; empty if none. */
  static OptionalInt firstReaching(Trace trace, int from, double level, double sign) {
    for (int i = from; i < trace.size(); i++) {
      if (sign * (trace.percent(i) - level) >= 0.0) {
        return OptionalInt.of(i);
      }
    }
    return OptionalInt.empty();
  }

  /** What makes the samples from one index to another, both inclusive, unfit. */
  static Optional<String> unfit(Trace trace, int from, int to, double longestPause) {
    Trace span = trace.slice(Math.max(0, from), Math.min(trace.size(), to + 1));
    return TraceGuards.gap(span, longestPause).or(() -> TraceGuards.saturated(span));
  }
}
