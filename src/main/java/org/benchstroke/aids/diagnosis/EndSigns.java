package org.benchstroke.aids.diagnosis;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;

/** The signs at the ends of travel, of the action, of the switches and of lost signals. */
final class EndSigns {
  /** Further from where it should stand, it stops short, % of travel. */
  private static final double SHORT = 0.8;

  /** Likewise where nothing tells its error elsewhere: a zero may be off by as much. */
  private static final double SHORT_WITHOUT_LAW = 2.0;

  /** Sent beyond the end it stands short by more than any dead band of a sound unit, %. */
  private static final double STANDS_SHORT = 0.85;

  /** No sound unit goes further past its ends, % of travel. */
  private static final double PAST = 1.2;

  /** It stands when its readings stay so near to each other for so long. */
  private static final double STILL_PERCENT = 0.5;

  private static final double STILL_SECONDS = 2.0;

  /** Setpoints so far from mid travel are for an end, %. */
  private static final double AT_AN_END = 45.0;

  /** Nearer to the end that it was sent to, it is not at the other, %. */
  private static final double OTHER_END = 60.0;

  private final JudgedRun run;
  private final Trace position;
  private final List<Stand> stands;
  private final Optional<Law> law;
  private final double deadBandPercent;
  private final Signs.Taker taker;

  /** The dead band is the largest that was measured, 0 without any. */
  EndSigns(
      JudgedRun run,
      Trace position,
      List<Stand> stands,
      Optional<Law> law,
      double deadBandPercent,
      Signs.Taker taker) {
    this.deadBandPercent = deadBandPercent;
    this.run = run;
    this.position = position;
    this.stands = stands;
    this.law = law;
    this.taker = taker;
  }

  void find() {
    action();
    shortOf();
    auxiliaries();
    losses();
  }

  private void action() {
    for (AsOrdered action : orders(Subject.ACTION)) {
      if (action.word() != Word.NO_RESULT) {
        boolean opposite = action.word() == Word.FAIL;
        taker.add(Sign.ACTION_OPPOSITE, opposite, action.found());
      }
    }
    ends();
    if (!position.isEmpty()) {
      double last = position.percent(position.size() - 1);
      boolean past = last < -PAST || last > 100.0 + PAST;
      taker.add(Sign.PAST_ITS_END, past && !zeroOff(), Numbers.fixed(last, 1) + " %");
    }
  }

  /** Where it stood, still, at the end of the first signal for an end. */
  private void ends() {
    List<Event.Commanded> told = run.record().events(Event.Commanded.class).toList();
    for (int i = 0; i + 1 < told.size(); i++) {
      double from = Samples.seconds(told.get(i).answeredNanos());
      double to = Samples.seconds(told.get(i + 1).askedNanos());
      double asked = told.get(i).setpointPercent();
      Trace trace = position.between(from, to);
      boolean end = Math.abs(asked - 50.0) > AT_AN_END;
      if (end && to - from > 2.0 * STILL_SECONDS && still(trace.between(to - STILL_SECONDS, to))) {
        double stood = trace.percent(trace.size() - 1);
        String figures =
            Numbers.fixed(stood, 1) + " % with the signal for " + Numbers.fixed(asked, 0) + " %";
        taker.add(Sign.ENDS_SWAPPED, Math.abs(stood - asked) > OTHER_END, figures);
        return;
      }
    }
  }

  private static boolean still(Trace trace) {
    return trace.size() > 2 && trace.spread().range() < STILL_PERCENT;
  }

  /** A feedback that is off shows the ends where they are not. */
  private boolean zeroOff() {
    return law.map(l -> Math.max(Math.abs(l.zero().value()), Math.abs(l.atTop())) > 0.5)
        .orElse(false);
  }

  private void shortOf() {
    boolean switches = run.bench().playing(Role.SWITCHES).isPresent();
    Optional<Stand> made = stands.stream().filter(s -> atEnd(s) && made(s)).findFirst();
    Optional<Stand> open = stands.stream().filter(s -> atEnd(s) && !made(s) && !let(s)).findFirst();
    if (switches && !stands.isEmpty()) {
      taker.add(Sign.SHORT_SWITCH_MADE, made.isPresent(), at(made));
    }
    if (law.isPresent()
        && law.get().lag().told()) { // else it may be a wide dead band that stands short
      if (switches) {
        beyond();
      }
      taker.add(Sign.SHORT_SWITCH_OPEN, open.isPresent() && made.isEmpty(), at(open));
    }
  }

  /** Sent to an end, it stands inside, and not where its error elsewhere would have it. */
  private boolean atEnd(Stand s) {
    double expected = s.setpointPercent() + law.map(l -> l.at(s)).orElse(0.0);
    double least = law.isPresent() ? SHORT : SHORT_WITHOUT_LAW;
    double y = s.feedbackPercent();
    return (s.setpointPercent() > 99.9 && y < 99.0 && y < expected - least)
        || (s.setpointPercent() < 0.1 && y > 1.0 && y > expected + least);
  }

  private void beyond() {
    List<Stand> sent =
        stands.stream()
            .filter(s -> s.setpointPercent() > 100.8 || s.setpointPercent() < -0.8)
            .filter(s -> made(s) || !let(s) || inside(s) < STANDS_SHORT)
            .toList();
    Optional<Stand> still =
        sent.stream().filter(s -> !made(s) && inside(s) > STANDS_SHORT).findFirst();
    if (!sent.isEmpty()) {
      taker.add(Sign.NO_SWITCH_BEYOND, still.isPresent(), at(still));
    }
  }

  /** Whether its own controller lets it stand there: a dead band that wide hides a stop. */
  private boolean let(Stand s) {
    return Math.abs(inside(s)) < deadBandPercent;
  }

  /** By how much it stands inside of where its error elsewhere would have it. */
  private double inside(Stand s) {
    double expected = s.setpointPercent() + law.map(l -> l.at(s)).orElse(0.0);
    // The feedback can't show more than its own ends.
    boolean shown = s.shown() && expected < Stand.MOST_SHOWN;
    double off = expected - s.feedbackPercent();
    return !shown ? 0.0 : s.setpointPercent() > 50.0 ? off : -off;
  }

  private static boolean made(Stand s) {
    return s.setpointPercent() > 50.0 ? s.openMade() : s.closedMade();
  }

  private static String at(Optional<Stand> stand) {
    return stand
        .map(
            s ->
                "stands at "
                    + Numbers.fixed(s.feedbackPercent(), 1)
                    + " %, sent to "
                    + Numbers.fixed(s.setpointPercent(), 1)
                    + " %")
        .orElse("");
  }

  private void auxiliaries() {
    List<AsOrdered> switches =
        orders(Subject.SWITCHES).stream().filter(o -> o.word() != Word.NO_RESULT).toList();
    if (!switches.isEmpty()) {
      List<String> late = failed(switches);
      taker.add(Sign.AUXILIARY_LATE, !late.isEmpty(), String.join(", ", late));
    }
  }

  private void losses() {
    boolean comes = orders(Subject.SETPOINTS).stream().noneMatch(o -> o.word() == Word.FAIL);
    List<AsOrdered> losses =
        orders(Subject.SIGNAL_LOSS).stream()
            .filter(o -> o.word() != Word.NO_RESULT && !o.which().equals(AsOrdered.RECOVERY))
            .toList();
    if (comes && !losses.isEmpty()) {
      List<String> wrong = failed(losses);
      taker.add(Sign.WRONG_ON_LOSS, !wrong.isEmpty(), String.join(", ", wrong));
    }
  }

  private List<AsOrdered> orders(Subject subject) {
    return run.orders().stream().filter(o -> o.isOf(subject)).toList();
  }

  private static List<String> failed(List<AsOrdered> some) {
    return some.stream().filter(o -> o.word() == Word.FAIL).map(AsOrdered::what).toList();
  }
}
