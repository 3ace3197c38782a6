package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.MeasureKind;

/**
 * Whether the unit came to its setpoints, roughly, and stayed there, at any time of the record: one
 * that has died stands still, too, and a test that only looks for its own rests would take that for
 * health. What no test asked for is evidence all the same.
 */
final class Arrivals {
  private static final String METHOD = "setpoints/3";

  /** Further off it is somewhere else; what is closer is for the limits to judge. Our choice. */
  private static final double ELSEWHERE_PERCENT = 5.0;

  /** Among the readings of a minute none of noise is further from their mean. Our choice. */
  private static final double DEVIATIONS = 6.0;

  private final JudgedBench judged;
  private final double limitPercent;
  private int rests;
  private Optional<String> wrong = Optional.empty();
  private Optional<String> unsettled = Optional.empty();

  private Arrivals(JudgedBench judged) {
    this.judged = judged;
    this.limitPercent =
        judged
            .unit()
            .limit(MeasureKind.TRAVEL_ERROR)
            .map(l -> Math.max(Math.abs(l.low().orElse(0.0)), Math.abs(l.high().orElse(0.0))))
            .orElse(ELSEWHERE_PERCENT);
  }

  /** Of the whole record; empty if nothing of it holds a position at rest. */
  static List<AsOrdered> orders(JudgedBench judged) {
    Arrivals arrivals = new Arrivals(judged);
    List<Passage> all = Passage.all(judged.record()).stream().filter(Passage::isTold).toList();
    all.forEach(arrivals::look);
    if (judged.logged()) {
      arrivals.unsignalled();
      arrivals.unsettled =
          arrivals.unsettled.or(() -> new UnaskedMotion(judged, arrivals.limitPercent).behind(all));
    }
    return arrivals.orders();
  }

  private List<AsOrdered> orders() {
    List<AsOrdered> orders = new ArrayList<>();
    if (rests > 0 || wrong.isPresent() || unsettled.isPresent()) {
      String within = "within ±" + Numbers.plain(ELSEWHERE_PERCENT) + " %";
      String sound = rests + " of " + rests + " times " + within;
      Word word =
          wrong.isPresent() ? Word.FAIL : unsettled.isPresent() ? Word.NO_RESULT : Word.PASS;
      String found = wrong.or(() -> unsettled).orElse(sound);
      orders.add(
          new AsOrdered(
              Subject.SETPOINTS, "", "comes to its setpoints and stays", found, word, METHOD));
    }
    return orders;
  }

  private void look(Passage told) {
    Trace position = judged.samples().position(told.lines());
    Optional<Event.Rested> first = Optional.empty();
    for (Event.Rested rest : told.lines().all(Event.Rested.class)) {
      if (!rest.settled()) {
        never(told, rest, window(position, rest));
      } else {
        Trace window = window(position, rest);
        if (!window.isEmpty()) {
          rests++;
          look(rest, window.spread().mean());
          first = first.isPresent() ? first : Optional.of(rest);
        }
      }
    }
    first.ifPresent(rest -> around(told, position, rest));
  }

  private static Trace window(Trace position, Event.Rested rest) {
    return position.between(Samples.seconds(rest.fromNanos()), Samples.seconds(rest.toNanos()));
  }

  /**
   * One that was cut short had no time to; who moved for all its time does not come to rest. Too
   * few readings show neither.
   */
  private void never(Passage told, Event.Rested rest, Trace seen) {
    double seconds = Samples.seconds(rest.toNanos() - rest.fromNanos());
    double from = seen.isEmpty() ? rest.setpointPercent() : seen.percent(0);
    double way = told.changePercent().orElse(rest.setpointPercent() - from);
    double latest =
        judged.unit().practice().restTimeoutSeconds()
            + 2.0 * judged.unit().travelSeconds(way)
            - judged.bench().samplePeriodSeconds();
    int window = judged.unit().practice().restSamples();
    boolean moved =
        seen.size() >= 2 * window && seen.last(window).spread().range() > rest.limitPercent();
    if (unsettled.isEmpty() && moved && seconds >= latest) {
      unsettled =
          Optional.of(
              "never came to rest at a setpoint of "
                  + Numbers.fixed(rest.setpointPercent(), 1)
                  + " %, for "
                  + Numbers.fixed(seconds, 1)
                  + " s"
                  + where(rest));
    }
  }

  /** What it did where its signal was lost and no test looked; before any it may have no power. */
  private void unsignalled() {
    boolean signalled = false;
    for (Passage passage : Passage.all(judged.record())) {
      signalled |= passage.commanded().isPresent();
      if (signalled && passage.disturbed().isPresent()) {
        Trace position = judged.samples().position(passage.lines());
        passage.rests().stream()
            .map(RestWait::found)
            .filter(rest -> rest.settled() && rest.leg() == Leg.LEAD_IN)
            .map(rest -> window(position, rest))
            .filter(window -> !window.isEmpty())
            .forEach(
                window ->
                    unsignalled(
                        passage.disturbed().get(), position.percent(0), window.spread().mean()));
      }
    }
  }

  private void unsignalled(Event.Disturbed loss, double before, double mean) {
    FailAction action = judged.unit().signalLoss().action();
    double wanted =
        switch (action) {
          case CLOSE -> 0.0;
          case OPEN -> 100.0;
          case STAY -> before;
        };
    if (Math.abs(mean - wanted) > ELSEWHERE_PERCENT) {
      wrong =
          wrong.or(
              () ->
                  Optional.of(
                      "stood at "
                          + percent(mean)
                          + " without a signal ("
                          + loss.what()
                          + "), where "
                          + action.key()
                          + " was ordered"));
    }
  }

  private void look(Event.Rested rest, double mean) {
    double asked = asked(rest.setpointPercent());
    if (Math.abs(mean - asked) > ELSEWHERE_PERCENT) {
      wrong("stood at " + Numbers.fixed(mean, 1) + " % with a setpoint of " + percent(asked), rest);
    }
  }

  /** A characteristic may not be able to ask for all positions, and no unit leaves its travel. */
  private double asked(double setpoint) {
    double within = Math.min(100.0, Math.max(0.0, setpoint));
    return judged.unit().positionAt(judged.unit().currentAt(Position.ofPercent(within))).percent();
  }

  /** On the way to its rest it goes one way, and behind it nowhere. */
  private void around(Passage told, Trace position, Event.Rested rest) {
    Spread window = window(position, rest).spread();
    double noise = DEVIATIONS * window.deviation() + judged.samples().resolutionPercent();
    double from = Samples.seconds(rest.fromNanos());
    Trace approach =
        position.between(Samples.seconds(told.commanded().orElseThrow().answeredNanos()), from);
    double back = back(approach, window.mean());
    if (back > Math.max(ELSEWHERE_PERCENT, limitPercent) + noise) {
      wrong(
          "went back by "
              + Numbers.fixed(back, 1)
              + " % on its way to a setpoint of "
              + percent(asked(rest.setpointPercent())),
          rest);
    }
    double asked = asked(rest.setpointPercent());
    double allowed = Math.max(limitPercent, Math.abs(window.mean() - asked)) + noise;
    double to = Samples.seconds(rest.toNanos());
    for (int i = position.indexAt(to); i < position.size(); i++) {
      double at = position.percent(i);
      double seconds = position.seconds(i);
      if (seconds > to && !(Math.abs(at - asked) <= allowed) && !watched(told, seconds)) {
        wrong(
            "was at "
                + Numbers.fixed(at, 1)
                + " %, "
                + Numbers.fixed(seconds - to, 1)
                + " s after it had come to rest, with a setpoint of "
                + percent(asked),
            rest);
        return;
      }
    }
  }

  /**
   * The furthest way against its direction, %; where it sets out from its place, the smaller of the
   * two ways: there and back.
   */
  private static double back(Trace approach, double rest) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    double fallen = 0.0;
    double risen = 0.0;
    for (int i = 0; i < approach.size(); i++) {
      double at = approach.percent(i);
      low = Math.min(low, at);
      high = Math.max(high, at);
      fallen = Math.max(fallen, high - at);
      risen = Math.max(risen, at - low);
    }
    double way = approach.isEmpty() ? 0.0 : rest - approach.percent(0);
    if (Math.abs(way) <= ELSEWHERE_PERCENT) {
      return Math.min(fallen, risen);
    }
    return way > 0.0 ? fallen : risen;
  }

  private static boolean watched(Passage told, double seconds) {
    return told.lines().all(Event.Watched.class).stream()
        .anyMatch(
            w ->
                seconds >= Samples.seconds(w.fromNanos())
                    && seconds <= Samples.seconds(w.toNanos()));
  }

  private void wrong(String what, Event.Rested rest) {
    wrong = wrong.isPresent() ? wrong : Optional.of(what + where(rest));
  }

  private static String where(Event.Rested rest) {
    return " (" + rest.label() + ")";
  }

  private static String percent(double value) {
    return Numbers.fixed(value, 1) + " %";
  }
}
