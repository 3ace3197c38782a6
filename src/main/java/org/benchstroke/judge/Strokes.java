package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.StrokeTiming;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.record.Entry;
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

  /** One full stroke: both setpoints commanded within the test. */
  private record Stroke(Event.Commanded before, Event.Commanded now, List<Entry> entries) {}

  /** The full strokes one way, timed. */
  public List<StrokeTiming.Outcome> of(List<Entry> entries, boolean opening) {
    return strokes(entries, opening).stream().map(this::timed).toList();
  }

  /** The positions of the full strokes one way. */
  List<Trace> traces(List<Entry> entries, boolean opening) {
    return strokes(entries, opening).stream().map(s -> samples.position(s.entries())).toList();
  }

  private static List<Stroke> strokes(List<Entry> entries, boolean opening) {
    List<Stroke> strokes = new ArrayList<>();
    Event.Commanded before = null;
    for (int i = 0; i < entries.size(); i++) {
      if (entries.get(i).event() instanceof Event.Commanded now) {
        if (before != null) {
          double change = now.setpointPercent() - before.setpointPercent();
          if (opening ? change >= FULL_STROKE_PERCENT : change <= -FULL_STROKE_PERCENT) {
            strokes.add(new Stroke(before, now, Segments.untilNext(entries, i + 1)));
          }
        }
        before = now;
      }
    }
    return strokes;
  }

  /** A move of the setpoint, whatever its length, timed in the same way. */
  public StrokeTiming.Outcome timed(Told told) {
    Event.Commanded now = told.commanded();
    double from = now.setpointPercent() - told.changePercent().orElseThrow();
    return timed(now, from, told.entries());
  }

  private StrokeTiming.Outcome timed(Stroke stroke) {
    return timed(stroke.now(), stroke.before().setpointPercent(), stroke.entries());
  }

  private StrokeTiming.Outcome timed(Event.Commanded now, double from, List<Entry> entries) {
    Trace trace = samples.position(entries);
    PositionNoise noise = judged.positionNoise(trace, entries);
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
                judged
                    .clockStep(untilRest(trace, entries), noise)
                    .map(StrokeTiming.Outcome::damaged))
        .orElse(outcome);
  }

  /** What happens at rest after a stroke does not change its time. */
  private Trace untilRest(Trace trace, List<Entry> entries) {
    Trace rest = Rests.last(trace, entries, judged.unit().practice().restSamples());
    return rest.isEmpty() ? trace : trace.between(Double.NEGATIVE_INFINITY, rest.seconds(0));
  }
}
