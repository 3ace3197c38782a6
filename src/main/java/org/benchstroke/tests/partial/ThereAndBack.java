package org.benchstroke.tests.partial;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.RecordedStep;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.tests.partial.PartialStroke.Part;
import org.benchstroke.tests.partial.PartialStroke.Way;

/**
 * Whether it went as far as it was sent, no further, and came back to its end: roughly, and without
 * a limit. What is closer is for the limits to judge.
 */
final class ThereAndBack {
  private final JudgedBench judged;
  private final PartialStroke spec;
  private final Optional<Attempt> attempt;

  /** Where it is taken to be there: as after a loss of the signal, % of travel. */
  private final double within;

  ThereAndBack(JudgedBench judged, PartialStroke spec, Optional<Attempt> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
    this.within = judged.unit().practice().lossEndPercent();
  }

  /** One for each cycle. */
  List<AsOrdered> all() {
    List<AsOrdered> orders = new ArrayList<>();
    for (int cycle = 1; cycle <= spec.cycles(); cycle++) {
      orders.add(attempt.isEmpty() ? none(cycle, "the test was not completed") : of(cycle));
    }
    return orders;
  }

  private AsOrdered none(int cycle, String reason) {
    return order(cycle, reason, Word.NO_RESULT);
  }

  private AsOrdered order(int cycle, String found, Word word) {
    String to = "to " + Numbers.plain(spec.to().percent()) + " %";
    String from = Numbers.plain(spec.from().percent()) + " %";
    String ordered = "goes " + to + ", no further, and comes back to " + from;
    return new AsOrdered(
        Subject.PARTIAL_STROKE,
        to + ", cycle " + cycle,
        ordered,
        found,
        word,
        PartialStrokeMeasures.METHOD);
  }

  private AsOrdered of(int cycle) {
    List<String> found = new ArrayList<>();
    boolean there = true;
    for (Way way : Way.values()) {
      Optional<RecordedStep> step = step(way, cycle, Truth.FEEDBACK);
      Optional<Event.Rested> rest = rest(way, cycle);
      if (step.isEmpty() || rest.isEmpty()) {
        return none(cycle, "the record holds no such stroke");
      }
      Trace window = window(step.get(), rest.get());
      Optional<String> unfit = unfit(step.get(), rest.get(), window);
      if (unfit.isPresent()) {
        return none(cycle, unfit.get());
      }
      there &= there(way, rest.get(), window, step.get(), found);
    }
    if (PartialStrokeMeasures.stemRead(judged)) {
      Trace out = stem(Way.OUT, cycle);
      Trace back = stem(Way.BACK, cycle);
      if (out.isEmpty() || back.isEmpty()) {
        return none(cycle, "no reading of the stem at rest");
      }
      Optional<String> pegged = TraceGuards.saturated(out).or(() -> TraceGuards.saturated(back));
      if (pegged.isPresent()) {
        return none(cycle, "stem: " + pegged.get());
      }
      there &= stemThere(out, back, found);
    }
    return order(cycle, String.join("; ", found), there ? Word.PASS : Word.FAIL);
  }

  /** Whether it came to rest there, and on its way out went no further. */
  private boolean there(
      Way way, Event.Rested rest, Trace window, RecordedStep step, List<String> found) {
    double mean = window.spread().mean();
    Position target = way == Way.OUT ? spec.to() : spec.from();
    found.add(
        (way == Way.OUT ? "" : "then ")
            + (rest.settled() ? "at " : "did not come to rest, was at ")
            + Numbers.fixed(mean, 1)
            + " %");
    double beyond = way == Way.OUT ? beyond(step) : 0.0;
    if (beyond > within) {
      found.add("went " + Numbers.fixed(beyond, 1) + " % too far");
    }
    boolean near = Math.abs(mean - target.percent()) <= within;
    return rest.settled() && near && beyond <= within;
  }

  private double beyond(RecordedStep step) {
    double target = spec.to().percent();
    double sign = target > spec.from().percent() ? 1.0 : -1.0;
    return step.trace().samples().stream()
        .mapToDouble(s -> sign * (s.percent() - target))
        .max()
        .orElse(0.0);
  }

  /** An angle reference may have its zero elsewhere: only how far the stem went counts. */
  private boolean stemThere(Trace out, Trace back, List<String> found) {
    double went = out.spread().mean() - back.spread().mean();
    found.add("the stem came back by " + Numbers.fixed(Math.abs(went), 1) + " %");
    return Math.abs(went - (spec.to().percent() - spec.from().percent())) <= within;
  }

  private Optional<String> unfit(RecordedStep step, Event.Rested rest, Trace window) {
    double from = Samples.seconds(rest.fromNanos());
    double to = Samples.seconds(rest.toNanos());
    double pause = judged.samples().longestPauseSeconds();
    Trace whole = step.trace();
    return PartialStrokeMeasures.unfit(judged, step)
        .or(() -> TraceGuards.gapWithin(window, from, to, pause))
        .or(() -> TraceGuards.gap(whole, pause))
        .or(() -> TraceGuards.saturated(whole));
  }

  private Trace stem(Way way, int cycle) {
    return step(way, cycle, Truth.STEM)
        .flatMap(s -> rest(way, cycle).map(r -> window(s, r)))
        .orElse(Trace.empty());
  }

  private static Trace window(RecordedStep step, Event.Rested rest) {
    return step.trace().between(Samples.seconds(rest.fromNanos()), Samples.seconds(rest.toNanos()));
  }

  private Optional<RecordedStep> step(Way way, int cycle, Truth truth) {
    return attempt.flatMap(a -> RecordedStep.of(judged, a, new Part(way, cycle), truth));
  }

  private Optional<Event.Rested> rest(Way way, int cycle) {
    return attempt.flatMap(
        a -> a.arrivals(new Part(way, cycle)::equals).stream().reduce((first, last) -> last));
  }
}
