package org.benchstroke.tests.stairs;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.CleanApproach;
import org.benchstroke.core.analysis.MotionRule;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Staircase.Next.Found;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;

/**
 * Takes the staircases out of a record: at which change of the signal, counted from a clean
 * approach, the unit stood, and at which it moved. What the runner thought of it does not count.
 */
final class StairReadings {
  private static final int LEAST = 5;

  private final Samples samples;
  private final MotionRule rule;
  private final CleanApproach oneMotion;
  private final Chapter attempt;
  private final Trace position;

  StairReadings(JudgedBench judged, Chapter attempt) {
    this.samples = judged.samples();
    this.attempt = attempt;
    this.position = samples.position(attempt.lines());
    double resolution = samples.resolutionPercent();
    this.rule =
        new MotionRule(
            resolution, MotionRule.USUAL_FALSE_PROBABILITY, judged.noise(Truth.FEEDBACK));
    this.oneMotion =
        new CleanApproach(
            judged.unit().practice().restBandPercent(),
            resolution,
            judged.unit().pauseSeconds(judged.bench().samplePeriodSeconds()));
  }

  /** A bracket, or why there is none, and the stairs that were taken. */
  record Outcome(Optional<Found> found, String reason, List<TestTrace.Stair> stairs) {
    Outcome {
      stairs = List.copyOf(stairs);
    }

    private static Outcome none(String reason) {
      return new Outcome(Optional.empty(), reason, List.of());
    }

    private Outcome by(List<TestTrace.Stair> taken) {
      return new Outcome(found, reason, taken);
    }
  }

  /** A wait for rest and the command before it. */
  private record Wait(Event.Commanded commanded, Event.Rested rested) {}

  /** Where the unit stands after a clean approach. */
  private record Stand(double setpointPercent, Spread window) {}

  /**
   * One search.
   *
   * @param climb which one
   * @param sign which way the signal changed then
   * @param finest the widest bracket that is a result, %
   */
  Outcome search(StairPlan.Climb climb, int sign, double finest) {
    Optional<Stand> stand = Optional.empty();
    String trouble = "the record holds no such search";
    double low = 0.0;
    double high = Double.POSITIVE_INFINITY;
    List<TestTrace.Stair> stairs = new ArrayList<>();
    int approach = 0;
    for (Wait wait : waits(climb)) {
      Trace window = window(wait.rested());
      Optional<String> unfit = unfit(wait.rested(), window);
      if (wait.rested().leg() == Leg.ARRIVAL) {
        Optional<String> unclean = unfit.or(() -> unclean(wait, window.spread()));
        trouble = unclean.orElse(trouble);
        double setpoint = wait.commanded().setpointPercent();
        stand =
            unclean.isPresent()
                ? Optional.empty()
                : Optional.of(new Stand(setpoint, window.spread()));
        approach++;
      } else if (unfit.isPresent() || stand.isEmpty()) {
        trouble = unfit.orElse(trouble);
        stand = Optional.empty();
      } else {
        double total = sign * (wait.commanded().setpointPercent() - stand.get().setpointPercent());
        Seen seen = rule.seen(stand.get().window(), window.spread(), sign);
        double way = sign * (window.spread().mean() - stand.get().window().mean());
        stairs.add(new TestTrace.Stair(approach, total, way, seen != Seen.STOOD));
        low = seen == Seen.STOOD ? Math.max(low, total) : low;
        high = seen == Seen.MOVED ? Math.min(high, total) : high;
        trouble = seen == Seen.MOVED_BACK ? "it moved against the signal" : trouble;
        stand = seen == Seen.STOOD ? stand : Optional.empty();
      }
    }
    return outcome(low, high, finest, trouble).by(stairs);
  }

  private static Outcome outcome(double low, double high, double finest, String trouble) {
    if (low >= high) {
      return Outcome.none(
          "it stood at a change of "
              + Numbers.plain(low)
              + " % and moved at one of "
              + Numbers.plain(high)
              + " %: it does not repeat");
    }
    if (high - low <= finest * 1.000_001) {
      return new Outcome(Optional.of(new Found(low, high)), "", List.of());
    }
    boolean stood = Double.isInfinite(high) && low > 0.0;
    return Outcome.none(stood ? "it had not moved at " + Numbers.plain(low) + " %" : trouble);
  }

  private List<Wait> waits(StairPlan.Climb climb) {
    return attempt.rests().stream()
        .filter(rest -> rest.passage().commanded().isPresent())
        .filter(rest -> rest.found().leg() != Leg.LEAD_IN && rest.isFor(climb))
        .map(rest -> new Wait(rest.passage().commanded().orElseThrow(), rest.found()))
        .toList();
  }

  private Trace window(Event.Rested rested) {
    return position.between(Samples.seconds(rested.fromNanos()), Samples.seconds(rested.toNanos()));
  }

  private Optional<String> unfit(Event.Rested rested, Trace window) {
    if (!rested.settled()) {
      return Optional.of("it did not come to rest");
    }
    return window.size() < LEAST
        ? Optional.of("only " + window.size() + " samples at rest, at least " + LEAST)
        : TraceGuards.saturated(window)
            .or(() -> TraceGuards.gap(window, samples.longestPauseSeconds()));
  }

  /** A corrective pulse: where it rests then is not where the controller stops it. */
  private Optional<String> unclean(Wait wait, Spread rest) {
    Trace approach =
        position.between(
            Samples.seconds(wait.commanded().answeredNanos()),
            Samples.seconds(wait.rested().toNanos()));
    int motions = oneMotion.motions(approach, rest);
    if (!wait.rested().clean() || motions > 1) {
      String how = motions > 1 ? "came in " + motions + " motions" : "overran and came back";
      return Optional.of(
          "no clean approach: it " + how + "; a corrective pulse hides where it stops");
    }
    return motions == 1 ? Optional.empty() : Optional.of("it did not move on the approach");
  }
}
