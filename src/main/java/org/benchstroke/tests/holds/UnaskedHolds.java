package org.benchstroke.tests.holds;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Hunting;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.Samples;
import org.benchstroke.record.Event;

/**
 * What the unit did at setpoints while no test for hunting watched it. A logger's file shows all of
 * its time, and one that hunted in any of it does not pass for one that stays at rest. One thread.
 */
final class UnaskedHolds {
  /** Fewer show no turn there and back. */
  private static final int LEAST_SAMPLES = 5;

  private final JudgedBench judged;
  private final Trace position;
  private final List<Event.Watched> watches;

  private UnaskedHolds(JudgedBench judged) {
    this.judged = judged;
    this.position = judged.samples().position(Lines.of(judged.record()));
    this.watches = judged.record().events(Event.Watched.class).toList();
  }

  /** When and how it first moved back and forth, or away, in words; empty if it did not. */
  static Optional<String> moved(JudgedBench judged) {
    return judged.logged() ? new UnaskedHolds(judged).first() : Optional.empty();
  }

  /** A setpoint in force. */
  private record Setpoint(double percent, double seconds, boolean lost) {}

  private Optional<String> first() {
    List<Setpoint> all = setpoints();
    for (int i = 0; i < all.size(); i++) {
      double before = i == 0 || all.get(i - 1).lost() ? Double.NaN : all.get(i - 1).percent();
      double end = i + 1 < all.size() ? all.get(i + 1).seconds() : Double.POSITIVE_INFINITY;
      Optional<String> found = all.get(i).lost() ? Optional.empty() : look(all.get(i), before, end);
      if (found.isPresent()) {
        return found;
      }
    }
    return Optional.empty();
  }

  /** Each once, though two tests may share a plateau. */
  private List<Setpoint> setpoints() {
    List<Setpoint> all = new ArrayList<>();
    for (Passage passage : Passage.all(judged.record())) {
      passage.commanded().ifPresent(c -> all.add(given(c)));
      passage
          .disturbed()
          .ifPresent(
              d -> all.add(new Setpoint(Double.NaN, Samples.seconds(d.answeredNanos()), true)));
    }
    all.sort(Comparator.comparingDouble(Setpoint::seconds));
    return all;
  }

  private static Setpoint given(Event.Commanded c) {
    double percent = c.setpointPercent();
    boolean lost = percent < 0.0 || percent > 100.0;
    return new Setpoint(percent, Samples.seconds(c.answeredNanos()), lost);
  }

  private Optional<String> look(Setpoint setpoint, double before, double end) {
    // A sample of the step itself may belong to either side.
    Trace whole = position.between(setpoint.seconds(), Math.nextDown(end));
    double from = come(setpoint, before, whole);
    List<Trace> parts = new ArrayList<>();
    for (Event.Watched watch : watches) {
      double began = Samples.seconds(watch.fromNanos());
      if (began >= setpoint.seconds() && began < end) {
        parts.add(whole.between(from, began));
        from = Math.max(from, Samples.seconds(watch.toNanos()));
      }
    }
    parts.add(whole.between(from, Double.MAX_VALUE));
    return parts.stream()
        .filter(p -> p.size() >= LEAST_SAMPLES)
        .flatMap(p -> look(setpoint, p).stream())
        .findFirst();
  }

  /** When it had come to its setpoint, or should have. */
  private double come(Setpoint setpoint, double before, Trace whole) {
    double near = HuntingMeasures.nearPercent(judged.unit());
    double way = Double.isNaN(before) ? 100.0 : setpoint.percent() - before;
    double latest = setpoint.seconds() + 2.0 * judged.unit().travelSeconds(way);
    double come = latest;
    for (int i = 0; i < whole.size() && come == latest; i++) {
      boolean there = Math.abs(whole.percent(i) - setpoint.percent()) <= near;
      come = there ? Math.min(latest, whole.seconds(i)) : latest;
    }
    return come + judged.unit().practice().restEarliestSeconds();
  }

  private Optional<String> look(Setpoint setpoint, Trace part) {
    Hunting hunting = HuntingMeasures.hunting(judged, part);
    if (hunting.turns() < 2 && !hunting.wandered(judged.unit().deadBandPercent())) {
      return Optional.empty();
    }
    return Optional.of(
        "the file shows that it moved by "
            + Numbers.significant(part.spread().range(), 2)
            + " % from "
            + Numbers.fixed(part.seconds(0), 1)
            + " to "
            + Numbers.fixed(part.seconds(part.size() - 1), 1)
            + " s at a setpoint of "
            + Numbers.fixed(setpoint.percent(), 1)
            + " %, which no hold of the procedure covers; make hold_s longer, add the setpoint"
            + " to points_pct, or cut the trace");
  }
}
