package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Event;

/**
 * A step of the setpoint as a record holds it: its command, and the position around it. Immutable.
 *
 * @param before the command before
 * @param at the command
 * @param truth by what the position is known: feedback or stem
 * @param trace the position, from shortly before the step to the next change of the signal
 * @param noise of that position
 */
public record RecordedStep(
    Event.Commanded before, Event.Commanded at, Truth truth, Trace trace, PositionNoise noise) {
  /** What is looked at before a step, s: it stands at rest there. */
  private static final double BEFORE_SECONDS = 2.0;

  /** The first step of an attempt that was for this; empty if it holds none. */
  public static Optional<RecordedStep> of(
      JudgedBench judged, Chapter chapter, Aim aim, Truth truth) {
    return chapter.arrivals(aim::equals).stream()
        .filter(rest -> rest.passage().before().isPresent())
        .findFirst()
        .map(rest -> of(judged, chapter.until(rest.passage()), rest, truth));
  }

  /**
   * The step after which the unit came to rest.
   *
   * @param lines up to the next change of the signal
   */
  public static RecordedStep of(JudgedBench judged, Lines lines, RestWait rest, Truth truth) {
    Event.Commanded at = rest.passage().commanded().orElseThrow();
    double from = Samples.seconds(at.askedNanos()) - BEFORE_SECONDS;
    Trace around = judged.samples().by(truth, lines).between(from, Double.POSITIVE_INFINITY);
    PositionNoise noise = judged.positionNoise(truth, around, List.of(rest.found()));
    return new RecordedStep(rest.passage().before().orElseThrow(), at, truth, around, noise);
  }

  /**
   * On what terms its response is measured.
   *
   * @param bandPercent it has settled when it stays within ± this of its end, % of travel
   */
  public Step step(JudgedBench judged, double bandPercent) {
    double asked = Samples.seconds(at.askedNanos());
    double answered = Samples.seconds(at.answeredNanos());
    return new Step(
        (asked + answered) / 2.0,
        (answered - asked) / 2.0,
        judged.asked(before),
        judged.asked(at),
        bandPercent,
        noise,
        judged.samples().longestPauseSeconds(),
        judged.unit().practice().restSamples(),
        judged.unit().practice().restBandPercent());
  }

  /**
   * Why nothing may be measured from it, in words. A stem that sticks slips faster than its drive
   * can go: no jump is impossible there.
   */
  public Optional<String> unfit(JudgedBench judged) {
    Optional<String> slew =
        truth == Truth.STEM
            ? Optional.empty()
            : TraceGuards.impossibleSlew(
                trace,
                judged.samples().fastestPercentPerSecond(),
                noise.deviationPercent(),
                noise.resolutionPercent());
    return slew.or(() -> judged.clockStep(trace, noise));
  }
}
