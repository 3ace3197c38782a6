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
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.RecordedStep;
import org.benchstroke.judge.RestWait;
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
  private final Optional<Chapter> attempt;

  /** Where it is taken to be there: as after a loss of the signal, % of travel. */
  private final double within;

  ThereAndBack(JudgedBench judged, PartialStroke spec, Optional<Chapter> attempt) {
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

  /** One way by one truth: the step, and where it came to rest. */
  private record Seen(Way way, RecordedStep step, Event.Rested rest) {
    Trace window() {
      double from = Samples.seconds(rest.fromNanos());
      return step.trace().between(from, Samples.seconds(rest.toNanos()));
    }

    double at() {
      return window().spread().mean();
    }
  }

  private AsOrdered of(int cycle) {
    List<Truth> truths =
        PartialStrokeMeasures.stemRead(judged)
            ? List.of(Truth.FEEDBACK, Truth.STEM)
            : List.of(Truth.FEEDBACK);
    List<Seen> seen = new ArrayList<>();
    for (Truth truth : truths) {
      for (Way way : Way.values()) {
        Optional<Seen> one = seen(way, cycle, truth);
        if (one.isEmpty()) {
          return none(cycle, "the record holds no such stroke");
        }
        Optional<String> unfit = unfit(one.get());
        if (unfit.isPresent()) {
          return none(cycle, (truth == Truth.STEM ? "stem: " : "") + unfit.get());
        }
        seen.add(one.get());
      }
    }
    List<String> found = new ArrayList<>();
    boolean there = there(seen.get(0), found);
    there &= there(seen.get(1), found);
    if (truths.contains(Truth.STEM)) {
      there &= stemThere(seen.get(2), seen.get(3), found);
    }
    return order(cycle, String.join("; ", found), there ? Word.PASS : Word.FAIL);
  }

  private Optional<Seen> seen(Way way, int cycle, Truth truth) {
    Part part = new Part(way, cycle);
    Chapter complete = attempt.orElseThrow();
    Optional<Event.Rested> rest =
        complete.arrivals(part::equals).stream().map(RestWait::found).findFirst();
    return rest.flatMap(
        r -> RecordedStep.of(judged, complete, part, truth).map(s -> new Seen(way, s, r)));
  }

  /** Whether it came to rest there, and on its way out went no further. */
  private boolean there(Seen seen, List<String> found) {
    boolean out = seen.way() == Way.OUT;
    Position target = out ? spec.to() : spec.from();
    found.add(
        (out ? "" : "then ")
            + (seen.rest().settled() ? "at " : "did not come to rest, was at ")
            + Numbers.fixed(seen.at(), 1)
            + " %");
    double beyond = out ? beyond(seen.step()) : 0.0;
    if (beyond > within) {
      found.add("went " + Numbers.fixed(beyond, 1) + " % too far");
    }
    boolean near = Math.abs(seen.at() - target.percent()) <= within;
    return seen.rest().settled() && near && beyond <= within;
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
  private boolean stemThere(Seen out, Seen back, List<String> found) {
    double went = out.at() - back.at();
    found.add("the stem came back by " + Numbers.fixed(Math.abs(went), 1) + " %");
    return Math.abs(went - (spec.to().percent() - spec.from().percent())) <= within;
  }

  private Optional<String> unfit(Seen seen) {
    double from = Samples.seconds(seen.rest().fromNanos());
    double to = Samples.seconds(seen.rest().toNanos());
    double pause = judged.samples().longestPauseSeconds();
    Trace whole = seen.step().trace();
    return PartialStrokeMeasures.unfit(judged, seen.step())
        .or(() -> TraceGuards.gapWithin(seen.window(), from, to, pause))
        .or(() -> TraceGuards.gap(whole, pause))
        .or(() -> TraceGuards.saturated(whole));
  }
}
