package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.record.Event;

/** Finds where the unit stood, in the lines of a record. */
final class StandFinder {
  /** A smaller move says nothing of the way that it came. */
  private static final double MOVED_PERCENT = 3.0;

  /** A ramp in so many parts, each of several starts of the motor. */
  private static final int PARTS = 10;

  private final JudgedRun run;
  private final Samples samples;
  private final Lines lines;
  private final Trace position;
  private final Trace stem;
  private final Warmth warmth;

  StandFinder(JudgedRun run, Trace position, Trace stem) {
    this.run = run;
    this.samples = run.samples();
    this.lines = Lines.of(run.record());
    this.position = position;
    this.stem = stem;
    this.warmth = new Warmth(position, run.unit().percentPerSecond());
  }

  /** In their order; without those whose signal was taken away. */
  List<Stand> all() {
    List<Stand> stands = new ArrayList<>();
    double before = Double.NaN;
    for (Passage passage : Passage.all(run.record())) {
      for (RestWait rest : passage.rests()) {
        Trace window = window(position, rest.found());
        if (!rest.found().settled() || window.size() < 3) {
          continue;
        }
        double mean = window.spread().mean();
        double moved = mean - before;
        int way = Math.abs(moved) > MOVED_PERCENT ? (int) Math.signum(moved) : 0;
        if (passage.disturbed().isEmpty()) {
          stands.add(stand(rest.found(), window, mean, way));
        }
        before = mean;
      }
    }
    return stands;
  }

  /** Where it was as it followed slow ramps, at places along each; of those that were measured. */
  List<Stand> alongRamps() {
    return run.traces().stream()
        .filter(TestTrace.OfRamp.class::isInstance)
        .map(TestTrace.OfRamp.class::cast)
        .filter(ramp -> ramp.residual().isPresent())
        .flatMap(this::along)
        .toList();
  }

  /** Not at its beginning and its end, where it takes up its lag. */
  private Stream<Stand> along(TestTrace.OfRamp ramp) {
    double from = ramp.line().fromSeconds();
    double part = (ramp.line().toSeconds() - from) / PARTS;
    return IntStream.range(1, PARTS - 1)
        .mapToObj(i -> passing(ramp, from + i * part, from + (i + 1) * part))
        .flatMap(Optional::stream);
  }

  private Optional<Stand> passing(TestTrace.OfRamp ramp, double from, double to) {
    Trace window = ramp.trace().between(from, to);
    if (window.size() < 3) {
      return Optional.empty();
    }
    double rate = ramp.line().percentPerSecond();
    double middle = (from + to) / 2.0;
    Trace seen = stem.between(from, to);
    return Optional.of(
        new Stand(
            ramp.line().fromPercent() + (middle - ramp.line().fromSeconds()) * rate,
            (int) Math.signum(rate),
            warmth.at(middle),
            window.spread().mean(),
            mean(seen),
            jitter(window),
            false,
            false));
  }

  private static OptionalDouble mean(Trace trace) {
    return trace.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(trace.spread().mean());
  }

  private Stand stand(Event.Rested rest, Trace window, double mean, int way) {
    Trace seen = window(stem, rest);
    double end = Samples.seconds(rest.toNanos());
    Position asked = Position.ofPercent(rest.setpointPercent());
    return new Stand(
        run.unit().positionAt(run.unit().currentAt(asked)).percent(),
        way,
        warmth.at(Samples.seconds(rest.fromNanos())),
        mean,
        mean(seen),
        jitter(window),
        samples.made(lines, LimitSwitch.OPEN, end).orElse(false),
        samples.made(lines, LimitSwitch.CLOSED, end).orElse(false));
  }

  private static Trace window(Trace trace, Event.Rested rest) {
    return trace.between(Samples.seconds(rest.fromNanos()), Samples.seconds(rest.toNanos()));
  }

  /** From one reading to the next, so that a slow drift does not count. */
  private static double jitter(Trace window) {
    double squares = 0.0;
    for (int i = 1; i < window.size(); i++) {
      double step = window.percent(i) - window.percent(i - 1);
      squares += step * step;
    }
    return Math.sqrt(squares / (2.0 * (window.size() - 1)));
  }
}
