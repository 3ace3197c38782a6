package org.benchstroke.judge;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.UnitType;

/**
 * Whether the unit kept up where a file moves its setpoint by small steps, or on before the unit
 * could rest, and no test asked for that: no reading at rest shows it. One thread.
 */
final class UnaskedMotion {
  /** Among the readings of a file none of noise is further from its place. Our choice. */
  private static final double DEVIATIONS = 6.0;

  private final UnitType unit;
  private final Samples samples;
  private final double noise;
  private final double allowed;

  /** What it was asked for, from when on. */
  private final Deque<Setpoint> recent = new ArrayDeque<>();

  private Optional<Reach> reach = Optional.empty();
  private double last;

  private record Setpoint(double seconds, double percent) {}

  /**
   * For one record.
   *
   * @param limitPercent how far from its setpoint it may rest
   */
  UnaskedMotion(JudgedBench judged, double limitPercent) {
    this.unit = judged.unit();
    this.samples = judged.samples();
    this.noise = judged.noiseAtRestPercent();
    this.allowed =
        limitPercent + unit.deadBandPercent() + DEVIATIONS * noise + samples.resolutionPercent();
  }

  /** Where it first was too far behind its setpoint or ahead, in words. */
  Optional<String> behind(List<Passage> all) {
    Optional<String> found = Optional.empty();
    for (int i = 0; i < all.size() && found.isEmpty(); i++) {
      Passage told = all.get(i);
      if (unasked(told) && told.changePercent().isPresent()) {
        found = behind(told);
      } else {
        reach = Optional.empty();
        recent.clear();
      }
    }
    return found;
  }

  /** Whether no test of the procedure asked for it: none waited for its rest or watched it. */
  private static boolean unasked(Passage told) {
    return !told.isDoubted()
        && told.lines().all(Event.Watched.class).isEmpty()
        && !told.rests().isEmpty()
        && told.rests().stream().allMatch(rest -> rest.found().leg() == Leg.LEAD_IN);
  }

  private Optional<String> behind(Passage told) {
    Event.Commanded now = told.commanded().orElseThrow();
    Trace trace = samples.position(told.lines());
    double change = told.changePercent().orElseThrow();
    boolean rested =
        told.rests().stream().allMatch(rest -> rest.found().settled())
            && Math.abs(change) >= unit.mustFollowPercent();
    double began = Samples.seconds(now.answeredNanos());
    if (recent.isEmpty()) {
      recent.add(new Setpoint(Double.NEGATIVE_INFINITY, now.setpointPercent() - change));
    }
    recent.add(new Setpoint(began, now.setpointPercent()));
    for (int i = 0; i < trace.size(); i++) {
      double outside = outside(trace.seconds(i), trace.percent(i));
      if (!rested && outside > allowed) {
        return Optional.of(
            "was "
                + Numbers.fixed(outside, 1)
                + " % away from where its moving setpoint allows it to be, at "
                + Numbers.fixed(trace.seconds(i), 1)
                + " s; no test asked for that: add the test to the procedure, or cut the trace");
      }
    }
    return TraceGuards.impossibleSlew(
            trace, samples.fastestPercentPerSecond(), noise, samples.resolutionPercent())
        .map(slew -> "can't be determined: " + slew);
  }

  private double outside(double seconds, double at) {
    double oldest = seconds - unit.practice().restEarliestSeconds() - unit.offSeconds();
    while (recent.size() > 1
        && recent.stream().skip(1).findFirst().orElseThrow().seconds() <= oldest) {
      recent.removeFirst();
    }
    if (reach.isEmpty()) {
      reach = Optional.of(new Reach(at, unit.percentPerSecond()));
      last = seconds;
    }
    double least = recent.stream().mapToDouble(s -> within(s.percent())).min().orElseThrow();
    double most = recent.stream().mapToDouble(s -> within(s.percent())).max().orElseThrow();
    reach.get().later(seconds - last, least, most);
    last = seconds;
    return reach.get().outside(at);
  }

  /** No unit goes beyond its ends. */
  private static double within(double percent) {
    return Math.min(100.0, Math.max(0.0, percent));
  }
}
