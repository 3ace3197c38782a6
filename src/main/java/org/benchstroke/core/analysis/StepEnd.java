package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.benchstroke.core.analysis.Estimate.Part;
import org.benchstroke.core.quantity.Numbers;

/** How a response came to its end: overshoot and settling. One thread. */
final class StepEnd {
  /** A band must be this many deviations wide to tell an exit from noise. */
  private static final double LEAST_BAND = 4.0;

  private static final int NEIGHBOURS = 4;

  /**
   * The share of a bound that U holds: the crossing of a swing lies at the bound, not anywhere
   * within it.
   */
  private static final double COVERED = 0.95;

  /** The probability that noise alone shows an overshoot. */
  private static final double FALSE_OVERSHOOT = 0.025;

  private final Trace trace;
  private final Step step;
  private final Rest start;
  private final Rest finish;
  private final int middle;
  private final CrossingFinder finder;
  private final double sign;
  private final double standard;
  private final Optional<String> lacking;

  StepEnd(Trace trace, Step step, Rest start, Rest finish, int middle, CrossingFinder finder) {
    this.trace = trace;
    this.step = step;
    this.start = start;
    this.finish = finish;
    this.middle = middle;
    this.finder = finder;
    this.sign = step.sign();
    this.standard = step.noise().standard();
    this.lacking =
        finish
            .unrest()
            .or(
                () ->
                    StepAnalysis.unfit(
                        trace, middle - 1, trace.size() - 1, step.longestPauseSeconds()));
  }

  /** The furthest beyond the end, % of travel. */
  Figure overshoot() {
    if (lacking.isPresent()) {
      return Figure.absent(lacking.get());
    }
    int highest = middle;
    for (int i = middle; i < trace.size(); i++) {
      highest = beyond(i) > beyond(highest) ? i : highest;
    }
    double hidden = hidden(trace.size() - middle);
    if (beyond(highest) <= hidden) {
      return Figure.of(new Estimate(0.0, List.of(Part.within("hidden by the noise", hidden)), 1.0));
    }
    return Figure.of(peak(highest));
  }

  /** An overshoot in % of the change. */
  Figure ofChange(Figure overshoot) {
    double change = sign * (finish.percent() - start.percent());
    return overshoot.estimate().map(e -> Figure.of(e.times(100.0 / change))).orElse(overshoot);
  }

  private double beyond(int index) {
    return sign * (trace.percent(index) - finish.percent());
  }

  /** What the largest of so many readings reaches by noise alone. */
  private double hidden(int readings) {
    PositionNoise noise = step.noise();
    double z =
        new NormalDistribution(null, 0.0, 1.0)
            .inverseCumulativeProbability(1.0 - FALSE_OVERSHOOT / readings);
    return z * noise.deviationPercent() + noise.resolutionPercent();
  }

  /** The top of a parabola through the samples around the highest, down into the noise. */
  private Estimate peak(int highest) {
    PositionNoise noise = step.noise();
    double floor = beyond(highest) - LEAST_BAND * standard;
    int from = Math.max(1, highest) - 1;
    int to = Math.min(trace.size() - 2, highest) + 1;
    // One reading that noise put lower does not end the top: what is lower than noise can does.
    double over = floor - LEAST_BAND * standard;
    for (int i = from - 1; i >= 0 && beyond(i) >= over; i--) {
      from = beyond(i) >= floor ? i : from;
    }
    for (int i = to + 1; i < trace.size() && beyond(i) >= over; i++) {
      to = beyond(i) >= floor ? i : to;
    }
    Trace around = trace.slice(from, to + 1);
    Parabola p = Parabola.fit(around, finish.percent(), sign, true);
    double top = p.hasTop() ? p.at(p.top()) : beyond(highest);
    double between = Math.max(0.0, top - beyond(highest));
    double leverage = p.hasTop() ? Math.min(1.0, p.leverage(p.top())) : 1.0;
    double rise = Math.max(0.0, beyond(highest) - floor);
    double byNoise = Math.sqrt(noise.varianceOnSlope(around.size(), rise) * leverage);
    return new Estimate(
        top,
        List.of(
            Part.normal("noise of the position", byNoise),
            Part.within("motion between samples", between),
            Part.normal("level at the end", finish.noiseStandard()),
            Part.within("resolution at rest", finish.roundingHalf())),
        1.0);
  }

  Figure settling() {
    if (lacking.isPresent()) {
      return Figure.absent(lacking.get());
    }
    double band = step.bandPercent();
    double least = LEAST_BAND * standard;
    if (band < least) {
      return Figure.absent(
          "the band of ±"
              + Numbers.plain(band)
              + " % is lost in the noise: it would take ±"
              + Numbers.significant(least, 2)
              + " %");
    }
    int exit = lastExit(band);
    if (exit < 0 || trace.seconds(exit) < step.seconds()) {
      return Figure.absent("the whole response lies within the band");
    }
    if (exit == trace.size() - 1) {
      return Figure.absent("it did not settle: the last sample is outside the band");
    }
    double side = Math.signum(trace.percent(exit) - finish.percent());
    Crossing crossing = finder.at(exit, finish.percent() + side * band, -side);
    double seconds = crossing.seconds() - step.seconds();
    if (seconds < StepAnalysis.LEAST_INTERVALS * crossing.intervalSeconds()) {
      return Figure.absent(
          StepLevels.insufficient("the time", seconds, crossing.intervalSeconds()));
    }
    SettledBetween between = SettledBetween.of(trace, middle, finish, standard, band);
    if (!between.clean(crossing, standard)) {
      return Figure.of(
          new Estimate(
              between.middle() - step.seconds(),
              List.of(
                  Part.within("instant of the step", step.halfSeconds()),
                  Part.within("which swing leaves the band last", between.half() / COVERED)
                      .of(Estimate.Origin.WHICH_SWING)),
              0.0));
    }
    List<Part> parts = new ArrayList<>();
    parts.add(Part.within("instant of the step", step.halfSeconds()));
    parts.addAll(StepLevels.crossing(crossing));
    parts.add(Part.normal("level at the end", crossing.perPercent() * finish.noiseStandard()));
    parts.add(Part.within("resolution at rest", crossing.perPercent() * finish.roundingHalf()));
    return Figure.of(new Estimate(seconds, parts, crossing.perPercent()));
  }

  /** The last sample outside the band that noise alone doesn't explain; −1 if there is none. */
  private int lastExit(double band) {
    for (int i = trace.size() - 1; i >= 0; i--) {
      double outside = Math.abs(beyond(i)) - band;
      if (outside > 0.0 && !byNoise(i, outside, band)) {
        return i;
      }
    }
    return -1;
  }

  private boolean byNoise(int index, double outside, double band) {
    if (outside > LEAST_BAND * standard) {
      return false;
    }
    int from = Math.max(0, index - NEIGHBOURS);
    int to = Math.min(trace.size() - 1, index + NEIGHBOURS);
    double sum = 0.0;
    for (int i = from; i <= to; i++) {
      sum += i == index ? 0.0 : beyond(i);
    }
    int count = to - from;
    return Math.abs(sum / count) + 3.0 * standard / Math.sqrt(count) < band;
  }
}
