package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.StrokeTiming;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.record.Event;

/** The full strokes that a record holds. */
public final class Strokes {
  private static final double FULL_STROKE_PERCENT = 99.9;

  private final JudgedBench judged;
  private final Samples samples;

  public Strokes(JudgedBench judged) {
    this.judged = judged;
    this.samples = judged.samples();
  }

  /** The full strokes one way, timed. */
  public List<StrokeTiming.Outcome> of(Chapter chapter, boolean opening) {
    return strokes(chapter, opening).map(this::timed).toList();
  }

  /** The positions of the full strokes one way. */
  List<Trace> traces(Chapter chapter, boolean opening) {
    return strokes(chapter, opening).map(s -> samples.position(s.lines())).toList();
  }

  private static Stream<Passage> strokes(Chapter chapter, boolean opening) {
    double sign = opening ? 1.0 : -1.0;
    return chapter.passages().stream()
        .filter(p -> sign * p.changePercent().orElse(0.0) >= FULL_STROKE_PERCENT);
  }

  /** A move from one setpoint to another, whatever its length. */
  public StrokeTiming.Outcome timed(Passage move) {
    Event.Commanded now = move.commanded().orElseThrow();
    double from = move.before().orElseThrow().setpointPercent();
    Trace trace = samples.position(move.lines());
    List<Event.Rested> rests = move.lines().all(Event.Rested.class);
    PositionNoise noise = judged.positionNoise(trace, rests);
    StrokeTiming.Outcome outcome =
        StrokeTiming.of(
            trace,
            Samples.seconds(now.answeredNanos()),
            from,
            now.setpointPercent(),
            samples.longestPauseSeconds(),
            noise);
    return TraceGuards.impossibleSlew(
            trace,
            samples.fastestPercentPerSecond(),
            noise.deviationPercent(),
            samples.resolutionPercent())
        .map(slew -> new StrokeTiming.Outcome(Optional.empty(), slew, false))
        .or(
            () ->
                judged.clockStep(untilRest(trace, rests), noise).map(StrokeTiming.Outcome::damaged))
        .orElse(outcome);
  }

  /** What happens at rest after a stroke does not change its time. */
  private Trace untilRest(Trace trace, List<Event.Rested> rests) {
    Trace rest = Rests.last(trace, rests, judged.unit().practice().restSamples());
    return rest.isEmpty() ? trace : trace.between(Double.NEGATIVE_INFINITY, rest.seconds(0));
  }
}
