package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.analysis.MotionMeter;
import org.benchstroke.analysis.Trace;
import org.benchstroke.analysis.TraceGuards;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.procedure.DutyRun;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.uncertainty.Component;

/** How often the unit started and how long it ran while it did its duty, and whether it did it. */
final class DutyMeasures {
  private static final String METHOD = "duty/1";
  private static final double DWELL_SECONDS = 0.2;
  private static final double SECONDS_PER_HOUR = 3600.0;

  private final JudgedBench judged;
  private final DutyRun spec;
  private final List<Entry> entries;
  private final boolean done;

  DutyMeasures(JudgedBench judged, DutyRun spec, Optional<Attempt> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.entries = attempt.map(Attempt::entries).orElse(List.of());
    this.done = attempt.isPresent();
  }

  TestResult result() {
    List<Event.Rested> moves =
        entries.stream()
            .map(Entry::event)
            .filter(e -> e instanceof Event.Rested r && r.point().startsWith(DutyRun.POINT))
            .map(Event.Rested.class::cast)
            .filter(r -> r.cycle() > 0)
            .toList();
    return new TestResult(measures(moves), List.of(order(moves)), Optional.empty());
  }

  private AsOrdered order(List<Event.Rested> moves) {
    String ordered =
        spec.moves() + " moves, " + Numbers.plain(spec.startsPerHour()) + " starts an hour";
    Optional<Event.Rested> stuck = moves.stream().filter(r -> !r.settled()).findFirst();
    if (!done || (stuck.isEmpty() && moves.size() < spec.moves())) {
      String found = done ? moves.size() + " moves in the record" : "the test was not completed";
      return new AsOrdered("duty", ordered, found, Word.NO_RESULT, METHOD);
    }
    String found =
        stuck
            .map(r -> "move " + r.cycle() + " did not come to rest in time")
            .orElse("all " + moves.size() + " came to rest in time");
    return new AsOrdered("duty", ordered, found, stuck.isEmpty() ? Word.PASS : Word.FAIL, METHOD);
  }

  private List<Measure> measures(List<Event.Rested> moves) {
    if (!done || moves.isEmpty()) {
      return none(done ? "the record holds no such move" : "the test was not completed");
    }
    double from = firstCommand();
    double to = Samples.seconds(moves.get(moves.size() - 1).toNanos());
    Trace trace = judged.samples().position(entries).between(from, to);
    Optional<String> unfit =
        TraceGuards.gap(trace, judged.samples().longestPauseSeconds())
            .or(() -> TraceGuards.saturated(trace));
    return unfit.isPresent() || trace.size() < 2
        ? none(unfit.orElse("too few positions were read"))
        : measured(trace);
  }

  /** The time of the duty begins with the first move, not with the way to its start. */
  private double firstCommand() {
    return entries.stream()
        .map(Entry::event)
        .filter(
            e ->
                e instanceof Event.Commanded c
                    && Math.abs(c.setpointPercent() - spec.to().percent()) < 1.0e-6)
        .mapToDouble(e -> Samples.seconds(((Event.Commanded) e).askedNanos()))
        .findFirst()
        .orElse(0.0);
  }

  private List<Measure> measured(Trace trace) {
    double period = judged.bench().samplePeriodSeconds();
    double band = judged.unit().practice().restBandPercent();
    double least = Math.max(2.0 * band, judged.unit().deadBandPercent() / 4.0);
    MotionMeter meter = new MotionMeter(least, Math.max(DWELL_SECONDS, 2.0 * period));
    for (int i = 0; i < trace.size(); i++) {
      meter.add(trace.seconds(i), trace.percent(i));
    }
    double watched = meter.watchedSeconds();
    // Each motion begins and ends somewhere within a sample period.
    double hidden = meter.starts() * period / watched * 100.0;
    String note =
        "in "
            + Numbers.fixed(watched / 60.0, 1)
            + " min, motion of "
            + Numbers.significant(least, 2)
            + " % and more";
    return List.of(
        value(
            MeasureKind.DUTY_STARTS,
            meter.startsPerHour(),
            Component.rectangular("one start more or less", SECONDS_PER_HOUR / watched, 1.0),
            note),
        value(
            MeasureKind.DUTY_ON_RATIO,
            meter.onRatio() * 100.0,
            Component.rectangular("begin and end of each motion", hidden, 1.0),
            note));
  }

  private static Measure value(MeasureKind kind, double value, Component by, String note) {
    return Measures.value(kind, "", Truth.FEEDBACK, value, List.of(by), METHOD, note);
  }

  private static List<Measure> none(String reason) {
    List<Measure> measures = new ArrayList<>();
    for (MeasureKind kind : List.of(MeasureKind.DUTY_STARTS, MeasureKind.DUTY_ON_RATIO)) {
      measures.add(Measures.none(kind, "", Truth.FEEDBACK, METHOD, reason));
    }
    return measures;
  }
}
