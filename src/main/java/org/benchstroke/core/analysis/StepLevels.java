package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Estimate.Part;
import org.benchstroke.core.quantity.Numbers;

/** The times at which a response crossed its levels. One thread. */
final class StepLevels {
  private final Trace trace;
  private final Step step;
  private final Rest start;
  private final Rest finish;
  private final int first;
  private final CrossingFinder finder;
  private final double sign;
  private final double change;
  private final int middle;

  StepLevels(Trace trace, Step step, Rest start, Rest finish, int first, CrossingFinder finder) {
    this.trace = trace;
    this.step = step;
    this.start = start;
    this.finish = finish;
    this.first = first;
    this.finder = finder;
    this.sign = step.sign();
    this.change = sign * (finish.percent() - start.percent());
    this.middle =
        StepAnalysis.firstReaching(trace, first, start.percent() + sign * reached() / 2.0, sign)
            .orElse(trace.size() - 1);
  }

  /** The change, or where it didn't settle how far it went. */
  private double reached() {
    if (finish.unrest().isEmpty()) {
      return change;
    }
    double furthest = 0.0;
    for (int i = first; i < trace.size(); i++) {
      furthest = Math.max(furthest, sign * (trace.percent(i) - start.percent()));
    }
    return furthest;
  }

  /** The first sample that is half way or more. */
  int middle() {
    return middle;
  }

  /** The last index before a level is crossed, sought from the middle of the response. */
  int before(double level) {
    int i = middle;
    if (sign * (trace.percent(middle) - level) >= 0.0) {
      while (i >= 0 && sign * (trace.percent(i) - level) >= 0.0) {
        i--;
      }
      return i;
    }
    while (i < trace.size() && sign * (trace.percent(i) - level) < 0.0) {
      i++;
    }
    return i == trace.size() ? -1 : i - 1;
  }

  double level(double share) {
    return start.percent() + sign * share * change;
  }

  Figure deadTime(double threshold) {
    double level = start.percent() + sign * threshold;
    int before = before(level);
    Optional<String> unfit = unfit(before);
    if (unfit.isPresent()) {
      return Figure.absent(unfit.get());
    }
    Crossing crossing = finder.afterRest(before, level, sign);
    List<Part> parts = stepAndCrossing(crossing);
    parts.add(Part.normal("level before the step", crossing.perPercent() * start.noiseStandard()));
    parts.add(Part.within("resolution at rest", crossing.perPercent() * start.roundingHalf()));
    Figure measured = measured(crossing, parts);
    return measured.isPresent() ? measured : between(before);
  }

  /** A time too short to be measured lies somewhere between the two samples around its end. */
  private Figure between(int before) {
    double earliest = Math.max(0.0, trace.seconds(before) - step.seconds());
    double latest = trace.seconds(before + 1) - step.seconds();
    return Figure.of(
        new Estimate(
            (earliest + latest) / 2.0,
            List.of(
                Part.within("instant of the step", step.halfSeconds()),
                Part.within("stamp of the sample", trace.stampHalfSeconds(before + 1)),
                Part.within("between two samples", (latest - earliest) / 2.0)),
            0.0));
  }

  Figure firstMotion(double threshold) {
    int before = before(start.percent() + sign * threshold);
    Optional<String> unfit = unfit(before);
    if (unfit.isPresent()) {
      return Figure.absent(unfit.get());
    }
    double seconds = trace.seconds(before + 1) - step.seconds();
    return Figure.of(
        new Estimate(
            seconds,
            List.of(
                Part.within("instant of the step", step.halfSeconds()),
                Part.within("stamp of the sample", trace.stampHalfSeconds(before + 1))),
            0.0));
  }

  Figure time(double share, String name) {
    Optional<String> lacking = lacking(share, name);
    if (lacking.isPresent()) {
      return Figure.absent(lacking.get());
    }
    Crossing crossing = finder.at(before(level(share)), level(share), sign);
    List<Part> parts = stepAndCrossing(crossing);
    parts.addAll(levels((1.0 - share) * crossing.perPercent(), share * crossing.perPercent()));
    return measured(crossing, parts);
  }

  Figure rise(double from, double to) {
    Optional<String> lacking = lacking(from, "10 %").or(() -> lacking(to, "90 %"));
    if (lacking.isPresent()) {
      return Figure.absent(lacking.get());
    }
    Crossing low = finder.at(before(level(from)), level(from), sign);
    Crossing high = finder.at(before(level(to)), level(to), sign);
    double seconds = high.seconds() - low.seconds();
    double interval = Math.max(low.intervalSeconds(), high.intervalSeconds());
    if (seconds < StepAnalysis.LEAST_INTERVALS * interval) {
      return Figure.absent(insufficient("the rise", seconds, interval));
    }
    List<Part> parts = new ArrayList<>();
    for (Crossing c : List.of(low, high)) {
      parts.addAll(crossing(c));
    }
    parts.addAll(
        levels(
            (1.0 - to) * high.perPercent() - (1.0 - from) * low.perPercent(),
            to * high.perPercent() - from * low.perPercent()));
    return Figure.of(new Estimate(seconds, parts, Math.hypot(low.perPercent(), high.perPercent())));
  }

  private Optional<String> lacking(double share, String name) {
    if (finish.unrest().isPresent()) {
      return finish.unrest();
    }
    if (StepAnalysis.lostInNoise(share, change, step.noise())) {
      return Optional.of(
          name + " of a change of " + Numbers.significant(change, 3) + " % is lost in the noise");
    }
    int before = before(level(share));
    if (before < 0) {
      return Optional.of("it never reached " + name + " of its change");
    }
    return unfit(before);
  }

  /** A gap or a saturated sample anywhere between the step and a crossing voids it. */
  private Optional<String> unfit(int before) {
    if (before < first - 1) {
      return Optional.of("it moved before the step");
    }
    return StepAnalysis.unfit(trace, first - 1, before + 1, step.longestPauseSeconds());
  }

  private Figure measured(Crossing crossing, List<Part> parts) {
    double seconds = crossing.seconds() - step.seconds();
    if (seconds < StepAnalysis.LEAST_INTERVALS * crossing.intervalSeconds()) {
      return Figure.absent(insufficient("the time", seconds, crossing.intervalSeconds()));
    }
    return Figure.of(new Estimate(seconds, parts, crossing.perPercent()));
  }

  static String insufficient(String what, double seconds, double interval) {
    return "sampling insufficient: "
        + what
        + " of "
        + Numbers.significant(Math.max(0.0, seconds), 2)
        + " s is shorter than "
        + Numbers.plain(StepAnalysis.LEAST_INTERVALS)
        + " intervals of "
        + Numbers.significant(interval, 2)
        + " s";
  }

  private List<Part> stepAndCrossing(Crossing crossing) {
    List<Part> parts = new ArrayList<>();
    parts.add(Part.within("instant of the step", step.halfSeconds()));
    parts.addAll(crossing(crossing));
    return parts;
  }

  static List<Part> crossing(Crossing crossing) {
    return List.of(
        Part.within("stamps of the samples", crossing.stampHalfSeconds()),
        Part.within("motion between samples", crossing.betweenHalfSeconds()),
        Part.normal("noise of the position", crossing.noiseStandard()));
  }

  /** By the two ends of the change, each with its sensitivity. */
  private List<Part> levels(double byStart, double byFinish) {
    return List.of(
        Part.normal(
            "level before the step",
            byStart == 0.0 ? 0.0 : Math.abs(byStart) * start.noiseStandard()),
        Part.normal("level at the end", Math.abs(byFinish) * finish.noiseStandard()),
        Part.within(
            "resolution at rest",
            Math.hypot(byStart * start.roundingHalf(), byFinish * finish.roundingHalf())));
  }
}
