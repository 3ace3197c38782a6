package org.benchstroke.tests.steps;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.RecordedStep;
import org.benchstroke.judge.RestWait;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;

/**
 * Steps of a file of others that no test asked for, of whatever size and place, held to the limits
 * of the step response. Immutable.
 */
final class UnaskedSteps {
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

  UnaskedSteps(JudgedBench judged, Steps spec, StepMeasures measures) {
    this.judged = judged;
    this.spec = spec;
    this.measures = measures;
  }

  /** The first that fails a limit, in words; empty if none does. */
  Optional<String> off() {
    if (!judged.logged()) {
      return Optional.empty();
    }
    List<Passage> all = Passage.all(judged.record());
    for (int i = 0; i < all.size(); i++) {
      List<Passage> until = all.subList(0, i + 1);
      Optional<String> off =
          all.get(i).rests().stream()
              .filter(this::looked)
              .map(rest -> RecordedStep.of(judged, Lines.of(until), rest, Truth.FEEDBACK))
              .flatMap(step -> off(step).stream())
              .findFirst();
      if (off.isPresent()) {
        return off;
      }
    }
    return Optional.empty();
  }

  /** A unit need not follow a smaller step, nor one beyond its ends. */
  private boolean looked(RestWait rest) {
    if (rest.passage().changePercent().isEmpty()) {
      return false;
    }
    double before = rest.passage().before().orElseThrow().setpointPercent();
    double at = rest.passage().commanded().orElseThrow().setpointPercent();
    return rest.found().cycle() == 0
        && rest.found().settled()
        && Math.min(before, at) >= 0.0
        && Math.max(before, at) <= 100.0
        && Math.abs(at - before) >= judged.unit().mustFollowPercent();
  }

  private Optional<String> off(RecordedStep recorded) {
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
                    + ", that was not judged; add its size to sizes_pct, or cut the trace");
  }
}
