package org.benchstroke.tests.switches;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.SwitchCrossing;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Truth;
import org.benchstroke.record.Event;

/** Where the switches changed while the unit crept past them, in a record's lines. */
final class SwitchPassages {
  /**
   * A feedback lags behind the shaft by 0.5 s at most (from memory), and shows it twice as late.
   */
  private static final double LONGEST_LAG_SECONDS = 1.0;

  /**
   * Two readings this close show no motion, % of travel; 4 deviations of noise if those are more.
   */
  private static final double STILL_PERCENT = 0.02;

  private final Samples samples;
  private final int restSamples;
  private final double travelDegrees;
  private final Chapter attempt;
  private final Lines lines;
  private final Trace trace;

  /**
   * Where one switch changed on all its passages, or why that is not known.
   *
   * @param at between these positions
   * @param why there is none
   */
  record Found(Optional<SwitchCrossing> at, String why) {
    static Found none(String why) {
      return new Found(Optional.empty(), why);
    }
  }

  SwitchPassages(JudgedBench judged, Truth truth, Chapter attempt) {
    this.samples = judged.samples();
    this.restSamples = judged.unit().practice().restSamples();
    this.travelDegrees = judged.unit().travelDegrees();
    this.attempt = attempt;
    this.lines = attempt.lines();
    this.trace = truth == Truth.STEM ? samples.stem(lines) : samples.position(lines);
  }

  /**
   * Over all creeps past an end, one way.
   *
   * @param towards whether on the way to the end, where a switch is made, or back
   * @param cycles how many there must be
   */
  Found of(Switches.End end, LimitSwitch which, boolean towards, int cycles) {
    List<Creep> creeps = creeps(end, towards);
    if (creeps.size() < cycles) {
      return Found.none("the record holds " + creeps.size() + " of " + cycles + " creeps");
    }
    List<SwitchCrossing> passages = new ArrayList<>();
    for (Creep creep : creeps) {
      Found found = during(creep, which, towards);
      if (found.at().isEmpty()) {
        return found;
      }
      passages.add(found.at().get());
    }
    return new Found(Optional.of(SwitchCrossing.common(passages)), "");
  }

  /** From a sample instant to another, s. */
  private record Creep(double from, double to) {}

  /** All creeps one way. One towards an end goes on while the unit comes to rest there. */
  private List<Creep> creeps(Switches.End end, boolean towards) {
    List<Event.Watched> ways = watched(end, towards);
    List<Event.Watched> back = watched(end, false);
    List<Creep> creeps = new ArrayList<>();
    for (int i = 0; i < ways.size(); i++) {
      boolean turned = towards && i < back.size();
      long to = turned ? back.get(i).fromNanos() : ways.get(i).toNanos();
      creeps.add(new Creep(Samples.seconds(ways.get(i).fromNanos()), Samples.seconds(to)));
    }
    return creeps;
  }

  private List<Event.Watched> watched(Switches.End end, boolean towards) {
    return attempt.watched(
        aim -> aim instanceof Switches.Creep c && c.end() == end && c.towards() == towards);
  }

  /** Whether the auxiliary of an end stayed open on every way towards it. */
  boolean neverMade(Switches.End end, int cycles) {
    List<Creep> creeps = creeps(end, true);
    return creeps.size() >= cycles
        && creeps.stream().allMatch(creep -> open(end.auxiliary(), creep));
  }

  private boolean open(LimitSwitch which, Creep creep) {
    boolean before = samples.made(lines, which, creep.from()).map(made -> !made).orElse(false);
    return before && samples.change(lines, which, true, creep.from(), creep.to()).isEmpty();
  }

  private Found during(Creep creep, LimitSwitch which, boolean wanted) {
    double from = creep.from();
    Trace during = trace.between(from, creep.to());
    if (during.size() < 2) {
      return Found.none("too few positions were read");
    }
    Optional<String> unfit =
        TraceGuards.gap(during, samples.longestPauseSeconds())
            .or(() -> TraceGuards.saturated(during));
    Optional<Boolean> before = samples.made(lines, which, from);
    if (unfit.isPresent() || before.isEmpty()) {
      return Found.none(unfit.orElse("the switch was not read"));
    }
    String state = wanted ? "made" : "open";
    if (before.get() == wanted) {
      return Found.none("it was " + state + " already at " + degrees(during.percent(0)));
    }
    Optional<Double> change = samples.change(lines, which, wanted, from, creep.to());
    if (change.isEmpty()) {
      String way = degrees(during.percent(0)) + " to " + degrees(during.percent(during.size() - 1));
      return Found.none("it did not become " + state + " on the way from " + way);
    }
    return around(change.get(), from);
  }

  /**
   * The switch is read after each position: it was unchanged after the sample before the last, and
   * had changed before the next. A feedback lags: what it shows when the motion is over counts,
   * too.
   */
  private Found around(double instant, double from) {
    int last = trace.indexAt(Math.nextUp(instant)) - 1;
    if (last < 1 || last + 1 >= trace.size()) {
      return Found.none("no position was read on both sides of its change");
    }
    Trace rest = trace.between(Double.NEGATIVE_INFINITY, from).last(restSamples);
    double noise = rest.isEmpty() ? 0.0 : rest.spread().deviation();
    int end = afterMotion(last, instant, Math.max(STILL_PERCENT, 4.0 * noise));
    return new Found(Optional.of(SwitchCrossing.over(trace, last - 1, end)), "");
  }

  /** The end of the first motion that shows from a sample on; without one the next sample. */
  private int afterMotion(int last, double instant, double still) {
    boolean moved = false;
    for (int i = last - 1; i + 1 < trace.size(); i++) {
      boolean moves = Math.abs(trace.percent(i + 1) - trace.percent(i)) > still;
      if (moved && !moves && i > last) {
        return i;
      }
      moved |= moves;
      if (trace.seconds(i) > instant + LONGEST_LAG_SECONDS) {
        return moved ? i : last + 1;
      }
    }
    return trace.size() - 1;
  }

  private String degrees(double percent) {
    return Numbers.fixed(percent / 100.0 * travelDegrees, 1) + "°";
  }
}
