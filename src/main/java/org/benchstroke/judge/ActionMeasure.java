package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.UnitType;

/**
 * Whether the unit goes where the signal says: up with a rising setpoint. The signal range already
 * holds what was ordered, so a unit of reversed action, too, follows its setpoint. Every attempt is
 * looked at, void or not: a unit that ran the wrong way once has shown its action.
 */
final class ActionMeasure {
  /** Smaller changes of the setpoint, added up while they go on the same way, say nothing. */
  private static final double LEAST_PERCENT = 4.0;

  /** Nor do those that the unit need not follow, so many times its dead band. Our choice. */
  private static final double DEAD_BANDS = 4.0;

  private static final double SEEN_PERCENT = 5.0;
  private static final int ENDS = 3;
  private static final String METHOD = "action/2";

  private final UnitType unit;
  private final Samples samples;
  private final boolean byEye;

  ActionMeasure(JudgedBench judged) {
    this.unit = judged.unit();
    this.samples = judged.samples();
    this.byEye = judged.byEye(Role.POSITION_TRANSMITTER);
  }

  /**
   * A change of the setpoint, in one step or in several the same way, and what the position did.
   */
  private record Step(double setpointChange, double positionChange, boolean away) {
    boolean followed() {
      return positionChange * Math.signum(setpointChange) >= Math.abs(setpointChange) / 2.0;
    }

    /** The wrong way and further from the setpoint: a unit that lagged behind isn't reversed. */
    boolean reversed() {
      double seen = Math.min(SEEN_PERCENT, Math.abs(setpointChange) / 2.0);
      return away && positionChange * Math.signum(setpointChange) <= -seen;
    }

    String text() {
      return "setpoint "
          + Numbers.signed(setpointChange, 0)
          + " %, position "
          + Numbers.signed(positionChange, 1)
          + " %";
    }
  }

  AsOrdered judge(RunRecord record) {
    List<Step> steps = steps(Passage.all(record));
    Optional<Step> reversed = largest(steps.stream().filter(Step::reversed));
    if (reversed.isPresent()) {
      return result("reversed: " + reversed.get().text(), Word.FAIL);
    }
    boolean closedSo = record.closed().map(c -> c.how().equals("action reversed")).orElse(false);
    if (closedSo) {
      return result("reversed: " + record.closed().orElseThrow().reason(), Word.FAIL);
    }
    return largest(steps.stream().filter(Step::followed))
        .map(step -> result("follows the signal: " + step.text(), Word.PASS))
        .orElseGet(
            () -> result("no step of the setpoint that the position followed", Word.NO_RESULT));
  }

  private static Optional<Step> largest(Stream<Step> steps) {
    return steps.max(Comparator.comparingDouble(step -> Math.abs(step.setpointChange())));
  }

  private AsOrdered result(String found, Word word) {
    String ordered =
        Numbers.plain(unit.signal().zero().milliamps())
            + " mA is 0 %, "
            + Numbers.plain(unit.signal().full().milliamps())
            + " mA is 100 %";
    return new AsOrdered(Subject.ACTION, "", ordered, found, word, METHOD);
  }

  private List<Step> steps(List<Passage> passages) {
    List<Step> steps = new ArrayList<>();
    Optional<Way> way = Optional.empty();
    for (Passage passage : passages) {
      if (passage.commanded().isPresent()) {
        double setpoint = passage.commanded().get().setpointPercent();
        // What the unit did then, it did by another signal.
        boolean lost = passage.lines().fault(RunFault.SETTING_LOST).isPresent();
        Trace trace = lost ? Trace.empty() : samples.position(passage.lines());
        // One reading is what a person typed in; of a trace both ends must be seen.
        if ((byEye && trace.size() == 1) || trace.size() >= 2 * ENDS) {
          Way next = Way.of(way, setpoint, trace);
          next.steps(unit).forEach(steps::add);
          way = Optional.of(next);
        } else if (!trace.isEmpty() || lost) {
          way = Optional.empty();
        }
      } else if (passage.change().isPresent()) {
        way = Optional.empty();
      }
    }
    return steps;
  }

  /** Where it was, by setpoint and position. */
  private record Stand(double setpoint, double position) {
    Step to(Stand next) {
      boolean away = Math.abs(next.position - next.setpoint) > Math.abs(position - next.setpoint);
      return new Step(next.setpoint - setpoint, next.position - position, away);
    }
  }

  /**
   * Changes of the setpoint that go on the same way.
   *
   * @param from where the first of them set out
   * @param before where the last of them did
   * @param now where that ended
   */
  private record Way(Stand from, Stand before, Stand now) {
    static Way of(Optional<Way> last, double setpoint, Trace trace) {
      int ends = Math.min(ENDS, trace.size());
      boolean typed = trace.size() == 1 && last.isPresent();
      double start = typed ? last.get().now().position() : trace.first(ends).spread().mean();
      // Without a setpoint before, the step is from where it stood.
      Stand before = new Stand(last.map(way -> way.now().setpoint()).orElse(start), start);
      Stand now = new Stand(setpoint, trace.last(ends).spread().mean());
      boolean on = last.filter(w -> w.change() * (setpoint - before.setpoint()) > 0.0).isPresent();
      return new Way(on ? last.get().from() : before, before, now);
    }

    private double change() {
      return now.setpoint() - before.setpoint();
    }

    /** The last change alone and all of them, where the unit must follow. */
    Stream<Step> steps(UnitType unit) {
      double least = Math.max(LEAST_PERCENT, DEAD_BANDS * unit.deadBandPercent());
      return Stream.of(before.to(now), from.to(now))
          .distinct()
          .filter(step -> Math.abs(step.setpointChange()) >= least);
    }
  }
}
