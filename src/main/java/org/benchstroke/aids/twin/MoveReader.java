package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.CleanApproach;
import org.benchstroke.core.analysis.MotionRule;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Samples;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;

/**
 * Takes out of a record every change of the setpoint that led from one rest to another. What holds
 * a gap, a reading at the end of its range, or a disturbed signal is left out. One thread.
 */
final class MoveReader {
  private static final int LEAST = 5;

  private final Samples samples;
  private final MotionRule rule;
  private final CleanApproach oneMotion;
  private final Trace position;
  private final List<Move> moves = new ArrayList<>();
  private final List<Move> ofTest = new ArrayList<>();
  private Optional<Trace> stand = Optional.empty();
  private Optional<Event.Commanded> told = Optional.empty();
  private double setpoint = Double.NaN;
  private int commands;
  private int lastSign;

  private MoveReader(JudgedRun run) {
    this.samples = run.samples();
    this.position = samples.position(Lines.of(run.record()));
    double resolution = samples.resolutionPercent();
    this.rule = new MotionRule(resolution, MotionRule.USUAL_FALSE_PROBABILITY);
    this.oneMotion =
        new CleanApproach(
            run.unit().practice().restBandPercent(),
            resolution,
            run.unit().pauseSeconds(run.bench().samplePeriodSeconds()));
  }

  /** All moves of a run, in the order of time. */
  static List<Move> of(JudgedRun run) {
    MoveReader reader = new MoveReader(run);
    for (Entry entry : run.record().entries()) {
      reader.take(entry.event());
    }
    reader.moves.addAll(reader.ofTest);
    return reader.moves;
  }

  private void take(Event event) {
    if (event instanceof Event.Commanded commanded) {
      setpoint = told.map(Event.Commanded::setpointPercent).orElse(Double.NaN);
      told = Optional.of(commanded);
      commands++;
    } else if (event instanceof Event.Rested rested) {
      rested(rested);
    } else if (event instanceof Event.Disturbed
        || event instanceof Event.Powered
        || event instanceof Event.Watched
        || event instanceof Event.MadeSafe) {
      stand = Optional.empty();
      lastSign = 0;
    } else if (event instanceof Event.TestEnded ended) {
      if (ended.outcome().equals("complete")) {
        moves.addAll(ofTest);
      }
      ofTest.clear();
    }
  }

  private void rested(Event.Rested rested) {
    Trace window =
        position.between(Samples.seconds(rested.fromNanos()), Samples.seconds(rested.toNanos()));
    boolean sound =
        rested.settled()
            && window.size() >= LEAST
            && TraceGuards.saturated(window).isEmpty()
            && TraceGuards.gap(window, samples.longestPauseSeconds()).isEmpty();
    if (!sound) {
      stand = Optional.empty();
      lastSign = 0;
    } else {
      if (stand.isPresent() && commands == 1 && Double.isFinite(setpoint)) {
        add(rested, stand.get(), window);
      }
      stand = Optional.of(window);
    }
    commands = 0;
  }

  /** Its second half: the lag of the feedback has died away by then. */
  private static Spread still(Trace rest) {
    return rest.last((rest.size() + 1) / 2).spread();
  }

  private void add(Event.Rested rested, Trace before, Trace after) {
    Event.Commanded commanded = told.orElseThrow();
    double at = Samples.seconds((commanded.askedNanos() + commanded.answeredNanos()) / 2);
    Trace trace = position.between(at, Samples.seconds(rested.toNanos()));
    boolean whole =
        TraceGuards.saturated(trace).isEmpty()
            && TraceGuards.gap(trace, samples.longestPauseSeconds()).isEmpty();
    Spread now = after.spread();
    Spread stood = before.spread();
    int sign = commanded.setpointPercent() > stood.mean() ? 1 : -1;
    Seen seen = rule.seen(stood, now, sign);
    int motions = 0;
    if (seen != Seen.STOOD) {
      motions = Math.max(1, oneMotion.motions(trace, now));
      motions = rested.clean() && seen == Seen.MOVED ? motions : Math.max(2, motions);
    }
    if (whole) {
      ofTest.add(
          new Move(
              rested.label(),
              setpoint,
              commanded.setpointPercent(),
              at,
              still(before),
              still(after),
              lastSign,
              motions,
              trace));
    }
    if (motions == 1) {
      lastSign = sign;
    } else if (motions > 1) {
      lastSign = 0;
    }
  }
}
