package org.benchstroke.tests.duty;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.MotionMeter;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** How often the unit started and how long it ran while it did its duty, and whether it did it. */
public final class DutyMeasures implements TestJudge {
  private static final String METHOD = "duty/1";
  private static final double DWELL_SECONDS = 0.2;

  /** Fewer tell no rate. */
  private static final int LEAST_STARTS = 4;

  private static final double SECONDS_PER_HOUR = 3600.0;

  private final JudgedBench judged;
  private final DutyRun spec;
  private final Optional<Chapter> attempt;
  private final Lines lines;
  private final boolean done;

  public DutyMeasures(JudgedBench judged, DutyRun spec, Optional<Chapter> attempt) {
    this.judged = judged;
    this.spec = spec;
    this.attempt = attempt;
    this.lines = attempt.map(Chapter::lines).orElse(Lines.NONE);
    this.done = attempt.isPresent();
  }

  @Override
  public TestResult result() {
    List<Event.Rested> moves =
        attempt.map(a -> a.arrivals(DutyRun.Move.class::isInstance)).orElse(List.of()).stream()
            .map(RestWait::found)
            .toList();
    return TestResult.measures(measures(moves)).andOrders(List.of(order(moves)));
  }

  private AsOrdered order(List<Event.Rested> moves) {
    String ordered =
        spec.moves() + " moves, " + Numbers.plain(spec.startsPerHour()) + " starts an hour";
    Optional<Event.Rested> stuck = moves.stream().filter(r -> !r.settled()).findFirst();
    if (!done || (stuck.isEmpty() && moves.size() < spec.moves())) {
      String found = done ? moves.size() + " moves in the record" : "the test was not completed";
      return new AsOrdered(Subject.DUTY, "", ordered, found, Word.NO_RESULT, METHOD);
    }
    String found =
        stuck
            .map(r -> "move " + r.cycle() + " did not come to rest in time")
            .orElse("all " + moves.size() + " came to rest in time");
    return new AsOrdered(
        Subject.DUTY, "", ordered, found, stuck.isEmpty() ? Word.PASS : Word.FAIL, METHOD);
  }

  private List<Measure> measures(List<Event.Rested> moves) {
    if (!done || moves.isEmpty()) {
      return none(done ? "the record holds no such move" : "the test was not completed");
    }
    double from = firstCommand();
    double to = Samples.seconds(moves.get(moves.size() - 1).toNanos());
    Trace trace = judged.samples().position(lines).between(from, to);
    Optional<String> unfit =
        TraceGuards.gap(trace, judged.samples().longestPauseSeconds())
            .or(() -> TraceGuards.saturated(trace));
    return unfit.isPresent() || trace.size() < 2
        ? none(unfit.orElse("too few positions were read"))
        : measured(trace, noisePercent(moves));
  }

  /** The time of the duty begins with the first move, not with the way to its start. */
  private double firstCommand() {
    return lines.all(Event.Commanded.class).stream()
        .filter(c -> Math.abs(c.setpointPercent() - spec.to().percent()) < 1.0e-6)
        .mapToDouble(c -> Samples.seconds(c.askedNanos()))
        .findFirst()
        .orElse(0.0);
  }

  /** The largest of all rests. */
  private double noisePercent(List<Event.Rested> moves) {
    Trace position = judged.samples().position(lines);
    return moves.stream()
        .map(r -> position.between(Samples.seconds(r.fromNanos()), Samples.seconds(r.toNanos())))
        .filter(rest -> !rest.isEmpty())
        .mapToDouble(rest -> rest.spread().deviation())
        .max()
        .orElse(0.0);
  }

  private List<Measure> measured(Trace trace, double noise) {
    double seconds = trace.seconds(trace.size() - 1) - trace.seconds(0);
    double period = seconds / (trace.size() - 1);
    double band = judged.unit().practice().restBandPercent();
    double quiet = Math.max(6.0 * noise, 2.0 * judged.samples().resolutionPercent());
    double least = Math.max(quiet, Math.max(2.0 * band, judged.unit().deadBandPercent() / 4.0));
    MotionMeter meter = new MotionMeter(least, Math.max(DWELL_SECONDS, 2.0 * period));
    for (int i = 0; i < trace.size(); i++) {
      meter.add(trace.seconds(i), trace.percent(i));
    }
    String note =
        "in "
            + Numbers.fixed(meter.watchedSeconds() / 60.0, 1)
            + " min, motion of "
            + Numbers.significant(least, 2)
            + " % and more";
    return List.of(starts(meter, period, note), onRatio(meter, period, least, note));
  }

  /** From the second start to the last, each of them known within a sample period. */
  private static Measure starts(MotionMeter meter, double period, String note) {
    if (meter.starts() < LEAST_STARTS) {
      String why = "only " + meter.starts() + " starts, at least " + LEAST_STARTS;
      return Measures.none(MeasureKind.DUTY_STARTS, Location.whole(), Truth.FEEDBACK, METHOD, why);
    }
    double span = meter.lastStartSeconds() - meter.secondStartSeconds();
    double rate = (meter.starts() - 2) / span * SECONDS_PER_HOUR;
    List<Component> components =
        List.of(
            Component.rectangular("instant of the first start", period / 2.0, rate / span),
            Component.rectangular("instant of the last start", period / 2.0, rate / span));
    return value(MeasureKind.DUTY_STARTS, rate, components, note);
  }

  /**
   * A motion is seen from the last sample before it left its place by the threshold to the first
   * after it came there but for the threshold: on the average a sample period too long, and too
   * short by twice the time that the threshold takes.
   */
  private Measure onRatio(MotionMeter meter, double period, double least, String note) {
    double threshold = least / judged.unit().percentPerSecond();
    double moved = meter.movedSeconds() - meter.starts() * (period - 2.0 * threshold);
    double perSecond = 100.0 / meter.watchedSeconds();
    // A command comes between two samples, so that all motions begin and end alike between them.
    double half = meter.starts() * period / 2.0;
    List<Component> components =
        List.of(
            Component.rectangular("begin of a motion, between two samples", half, perSecond),
            Component.rectangular("end of a motion, between two samples", half, perSecond));
    return value(MeasureKind.DUTY_ON_RATIO, Math.max(0.0, moved) * perSecond, components, note);
  }

  private static Measure value(
      MeasureKind kind, double value, List<Component> components, String note) {
    return Measures.value(kind, Location.whole(), Truth.FEEDBACK, value, components, METHOD, note);
  }

  private static List<Measure> none(String reason) {
    List<Measure> measures = new ArrayList<>();
    for (MeasureKind kind : List.of(MeasureKind.DUTY_STARTS, MeasureKind.DUTY_ON_RATIO)) {
      measures.add(Measures.none(kind, Location.whole(), Truth.FEEDBACK, METHOD, reason));
    }
    return measures;
  }
}
