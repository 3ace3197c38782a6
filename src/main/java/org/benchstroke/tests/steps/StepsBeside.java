package org.benchstroke.tests.steps;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Segments;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/**
 * Steps of a file of others that no test asked for, of whatever size and place, held to the limits
 * of the step response. Immutable.
 */
final class StepsBeside {
  /** A longer way takes longer. */
  private static final Set<MeasureKind> BY_SIZE =
      EnumSet.of(
          MeasureKind.STEP_T63,
          MeasureKind.STEP_T86,
          MeasureKind.STEP_T98,
          MeasureKind.STEP_SETTLING);

  private final JudgedBench judged;
  private final Steps spec;
  private final StepMeasures measures;

  StepsBeside(JudgedBench judged, Steps spec, StepMeasures measures) {
    this.judged = judged;
    this.spec = spec;
    this.measures = measures;
  }

  /** The first that fails a limit, in words; empty if none does. */
  Optional<String> off() {
    if (!judged.logged()) {
      return Optional.empty();
    }
    List<Entry> entries = judged.record().entries();
    Event.Commanded before = null;
    Event.Commanded at = null;
    for (int i = 0; i < entries.size(); i++) {
      Event event = entries.get(i).event();
      if (event instanceof Event.Commanded commanded) {
        before = at;
        at = commanded;
      } else if (Segments.changes(event)) {
        before = null;
        at = null;
      } else if (event instanceof Event.Rested rested
          && before != null
          && looked(rested, before, at)) {
        Optional<String> off = off(measures.recorded(entries, i, before, at));
        if (off.isPresent()) {
          return off;
        }
      }
    }
    return Optional.empty();
  }

  /** A unit need not follow a smaller step, nor one beyond its ends. */
  private boolean looked(Event.Rested rested, Event.Commanded before, Event.Commanded at) {
    boolean within =
        Math.min(before.setpointPercent(), at.setpointPercent()) >= 0.0
            && Math.max(before.setpointPercent(), at.setpointPercent()) <= 100.0;
    double size = Math.abs(at.setpointPercent() - before.setpointPercent());
    return rested.cycle() == 0
        && rested.settled()
        && within
        && size >= judged.unit().mustFollowPercent();
  }

  private Optional<String> off(StepMeasures.Recorded recorded) {
    double from = recorded.before().setpointPercent();
    double to = recorded.at().setpointPercent();
    double largest = spec.sizes().stream().mapToDouble(s -> s).max().orElse(0.0);
    double longer = Math.max(0.0, Math.abs(to - from) - largest);
    return measures.beside(recorded).stream()
        .filter(
            m -> {
              double less = BY_SIZE.contains(m.kind()) ? judged.unit().travelSeconds(longer) : 0.0;
              return m.value().isPresent()
                  && m.word(judged.unit(), -less).equals(Optional.of(Word.FAIL));
            })
        .findFirst()
        .map(
            m ->
                "the file shows a step from "
                    + Numbers.upTo(from, 2)
                    + " to "
                    + Numbers.upTo(to, 2)
                    + " %, at "
                    + Numbers.fixed(Samples.seconds(recorded.at().answeredNanos()), 1)
                    + " s, with "
                    + m.kind().title()
                    + " "
                    + Numbers.significant(m.value().orElseThrow(), 3)
                    + " "
                    + m.kind().unit()
                    + ", that nobody judged; add its size to sizes_pct, or cut the trace");
  }
}
