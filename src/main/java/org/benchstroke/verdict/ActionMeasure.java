package org.benchstroke.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.analysis.Trace;
import org.benchstroke.bench.UnitType;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.verdict.AsOrdered.Subject;

/**
 * Whether the unit goes where the signal says: up with a rising setpoint. The signal range already
 * holds what was ordered, so a unit of reversed action, too, follows its setpoint. Every attempt is
 * looked at, void or not: a unit that ran the wrong way once has shown its action.
 */
final class ActionMeasure {
  private static final double STEP_PERCENT = 20.0;
  private static final double SEEN_PERCENT = 5.0;
  private static final int ENDS = 3;
  private static final String METHOD = "action/1";

  private final UnitType unit;
  private final Samples samples;

  ActionMeasure(UnitType unit, Samples samples) {
    this.unit = unit;
    this.samples = samples;
  }

  /** A step of the setpoint and what the position did. */
  private record Step(double setpointChange, double positionChange, boolean away) {
    boolean followed() {
      return positionChange * Math.signum(setpointChange) >= Math.abs(setpointChange) / 2.0;
    }

    /** The wrong way and further from the setpoint: a unit that lagged behind isn't reversed. */
    boolean reversed() {
      return away && positionChange * Math.signum(setpointChange) <= -SEEN_PERCENT;
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
    List<Step> steps = steps(record.entries());
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

  private List<Step> steps(List<Entry> entries) {
    List<Step> steps = new ArrayList<>();
    double before = Double.NaN;
    Typed typed = new Typed(Double.NaN, Double.NaN);
    for (int i = 0; i < entries.size(); i++) {
      Event event = entries.get(i).event();
      if (event instanceof Event.Commanded now) {
        Trace trace = samples.position(Segments.untilNext(entries, i + 1));
        if (trace.size() == 1) {
          typed.next(now.setpointPercent(), trace.percent(0)).ifPresent(steps::add);
          typed = new Typed(now.setpointPercent(), trace.percent(0));
        } else if (trace.size() >= 2 * ENDS) {
          step(trace, before, now.setpointPercent()).ifPresent(steps::add);
        }
        before = now.setpointPercent();
      } else if (Segments.changes(event)) {
        before = Double.NaN;
      }
    }
    return steps;
  }

  /** A position that a person read at a setpoint: one in a segment, where a trace has many. */
  private record Typed(double setpoint, double position) {
    Optional<Step> next(double newSetpoint, double newPosition) {
      double change = newSetpoint - setpoint;
      boolean away = Math.abs(newPosition - newSetpoint) > Math.abs(position - newSetpoint);
      return Math.abs(change) >= STEP_PERCENT
          ? Optional.of(new Step(change, newPosition - position, away))
          : Optional.empty();
    }
  }

  private static Optional<Step> step(Trace trace, double before, double setpoint) {
    double start = trace.first(ENDS).spread().mean();
    double end = trace.last(ENDS).spread().mean();
    // Without a setpoint before, the step is from where it stood.
    double change = setpoint - (Double.isNaN(before) ? start : before);
    boolean away = Math.abs(end - setpoint) > Math.abs(start - setpoint);
    return Math.abs(change) >= STEP_PERCENT
        ? Optional.of(new Step(change, end - start, away))
        : Optional.empty();
  }
}
