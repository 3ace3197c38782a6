package org.benchstroke.aids.diagnosis;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.Samples;
import org.benchstroke.record.Event;

/** Finds where a unit stopped far from its setpoint although nothing had changed. */
final class SelfStops {
  /** Nearer to its setpoint or to an end, a stop has other reasons, % of travel. */
  private static final double FAR = 6.0;

  private static final double END = 1.5;

  /** Stops at one limit differ by less, % of travel. */
  private static final double LIMIT = 0.6;

  /** It stands when it moves by less in so many seconds. */
  private static final double STILL_PERCENT = 0.1;

  private static final double STILL_SECONDS = 3.0;

  private static final double WHOLE = 80.0;

  private SelfStops() {}

  /** The position of the first such stop, %; empty if there is none. */
  static Optional<Double> first(JudgedRun run, Trace position) {
    List<Passage> passages = Passage.all(run.record());
    for (int i = 0; i + 1 < passages.size(); i++) {
      double end = passages.get(i + 1).beganSeconds();
      Optional<Double> stop =
          passages
              .get(i)
              .commanded()
              .flatMap(now -> within(now, end, position))
              .filter(at -> goesBeyond(at, position));
      if (stop.isPresent()) {
        return stop;
      }
    }
    return Optional.empty();
  }

  /** Where it never goes further it was held: by a stop, or by a signal that says no more. */
  private static boolean goesBeyond(double at, Trace position) {
    boolean below = false;
    boolean above = false;
    for (int i = 0; i < position.size(); i++) {
      below |= position.percent(i) < at - LIMIT;
      above |= position.percent(i) > at + LIMIT;
    }
    return below && above;
  }

  private static Optional<Double> within(Event.Commanded now, double end, Trace position) {
    Trace trace = position.between(Samples.seconds(now.answeredNanos()), end);
    int since = 0;
    boolean moved = false;
    double asked = trace.isEmpty() ? 0.0 : Math.abs(trace.percent(0) - now.setpointPercent());
    for (int i = 1; i < trace.size(); i++) {
      double step = Math.abs(trace.percent(i) - trace.percent(since));
      if (step > STILL_PERCENT) {
        moved |= Math.abs(trace.percent(i) - trace.percent(0)) > 1.0;
        since = i;
      } else if (trace.seconds(i) - trace.seconds(since) > STILL_SECONDS) {
        // A whole stroke was asked for, and it stays at the other end.
        boolean still = !moved && asked > WHOLE;
        return still ? Optional.of(trace.percent(i)) : stopped(now, trace.percent(i));
      }
    }
    return Optional.empty();
  }

  private static Optional<Double> stopped(Event.Commanded now, double at) {
    boolean far = Math.abs(at - now.setpointPercent()) > FAR;
    return far && at > END && at < 100.0 - END ? Optional.of(at) : Optional.empty();
  }
}
