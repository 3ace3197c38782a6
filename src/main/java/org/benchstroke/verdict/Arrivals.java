package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.analysis.Trace;
import org.benchstroke.procedure.SignalLoss;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.verdict.AsOrdered.Subject;

/**
 * Whether the unit came to its setpoints, roughly, in every test: one that has died stands still,
 * too, and a test that only looks for rest would take that for health.
 */
final class Arrivals {
  private static final String METHOD = "setpoints/1";

  /** Further off it is somewhere else; what is closer is for the limits to judge. Our choice. */
  private static final double ELSEWHERE_PERCENT = 5.0;

  private final JudgedBench judged;
  private int rests;
  private Optional<String> elsewhere = Optional.empty();

  private Arrivals(JudgedBench judged) {
    this.judged = judged;
  }

  /** Of the attempts that count; empty if none of them holds a position at rest. */
  static List<AsOrdered> orders(JudgedBench judged, List<Attempt> attempts) {
    Arrivals arrivals = new Arrivals(judged);
    attempts.forEach(a -> arrivals.look(a.entries()));
    return arrivals.orders();
  }

  private List<AsOrdered> orders() {
    List<AsOrdered> orders = new ArrayList<>();
    if (rests > 0) {
      String within = "within ±" + Numbers.plain(ELSEWHERE_PERCENT) + " %";
      String found = elsewhere.orElse(rests + " of " + rests + " times " + within);
      Word word = elsewhere.isPresent() ? Word.FAIL : Word.PASS;
      orders.add(
          new AsOrdered(Subject.SETPOINTS, "", "comes to its setpoints", found, word, METHOD));
    }
    return orders;
  }

  private void look(List<Entry> entries) {
    Trace position = judged.samples().position(entries);
    for (Entry entry : entries) {
      if (entry.event() instanceof Event.Rested rest && rest.settled() && !lost(rest)) {
        Trace window =
            position.between(Samples.seconds(rest.fromNanos()), Samples.seconds(rest.toNanos()));
        if (!window.isEmpty()) {
          rests++;
          look(rest, window.spread().mean());
        }
      }
    }
  }

  private void look(Event.Rested rest, double mean) {
    Position setpoint = Position.ofPercent(rest.setpointPercent());
    // A characteristic may not be able to ask for all positions.
    double asked = judged.unit().positionAt(judged.unit().currentAt(setpoint)).percent();
    if (Math.abs(mean - asked) > ELSEWHERE_PERCENT && elsewhere.isEmpty()) {
      elsewhere =
          Optional.of(
              "stood at "
                  + Numbers.fixed(mean, 1)
                  + " % with a setpoint of "
                  + Numbers.fixed(asked, 1)
                  + " % ("
                  + rest.point()
                  + ")");
    }
  }

  /** Without its signal it has no setpoint to come to. */
  private static boolean lost(Event.Rested rest) {
    return List.of(SignalLoss.Way.values()).stream()
        .anyMatch(way -> rest.point().equals(SignalLoss.point(way)));
  }
}
