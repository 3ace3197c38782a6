package org.benchstroke.tests.stroke;

import java.util.List;
import java.util.Optional;
import java.util.function.DoublePredicate;
import java.util.stream.DoubleStream;
import org.benchstroke.core.analysis.StrokeTiming;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Passage;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.Strokes;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/**
 * Long moves of a file of others that its stroke time test did not take, timed like strokes: a
 * limit that the asked strokes keep holds for the unit, and one that was slower elsewhere in the
 * same file does not pass. Immutable.
 */
final class UnaskedStrokes {
  /** Of shorter moves too much is start and stop. Our choice. */
  private static final double LEAST_PERCENT = 20.0;

  /** From here on a move is as good as a full stroke. Our choice. */
  private static final double NEARLY_FULL_PERCENT = 90.0;

  /** What start and stop of a shorter move may be worth, % of travel. Our choice. */
  private static final double ENDS_PERCENT = 5.0;

  private final JudgedBench judged;
  private final List<Measure> asked;
  private final List<Event.Commanded> own;

  /** With the measures of the test and the attempt that counts. */
  UnaskedStrokes(JudgedBench judged, List<Measure> asked, Optional<Chapter> attempt) {
    this.judged = judged;
    this.asked = asked;
    this.own = attempt.map(Chapter::lines).orElse(Lines.NONE).all(Event.Commanded.class);
  }

  /** The first that is too slow or too fast, in words; empty if none is. */
  Optional<String> off() {
    if (!judged.logged()) {
      return Optional.empty();
    }
    return Passage.all(judged.record()).stream()
        .filter(p -> p.isTold() && !p.isDoubted() && !own.contains(p.commanded().orElseThrow()))
        .filter(t -> Math.abs(t.changePercent().orElse(0.0)) >= leastPercent())
        .flatMap(t -> off(t).stream())
        .findFirst();
  }

  /** A motor has one speed; the time of a pneumatic unit is not in proportion to its way. */
  private double leastPercent() {
    boolean motor = judged.unit().drive() == UnitType.Drive.MOTOR;
    return motor ? LEAST_PERCENT : NEARLY_FULL_PERCENT;
  }

  private Optional<String> off(Passage told) {
    double to = told.commanded().orElseThrow().setpointPercent();
    double change = told.changePercent().orElseThrow();
    StrokeTiming.Outcome outcome = new Strokes(judged).timed(told);
    if (outcome.timed().isEmpty()) {
      return Optional.empty();
    }
    double seconds = outcome.timed().get().seconds() * 100.0 / Math.abs(change);
    MeasureKind kind =
        change > 0.0 ? MeasureKind.STROKE_TIME_OPENING : MeasureKind.STROKE_TIME_CLOSING;
    boolean off =
        asked.stream()
            .filter(m -> m.kind() == kind && m.value().isPresent())
            .anyMatch(m -> isOff(m, seconds, Math.abs(change)));
    return off
        ? Optional.of(
            "the file shows a move from "
                + Numbers.upTo(to - change, 1)
                + " to "
                + Numbers.upTo(to, 1)
                + " %, at "
                + Numbers.fixed(Samples.seconds(told.commanded().orElseThrow().answeredNanos()), 1)
                + " s, as fast as a full stroke in "
                + Numbers.fixed(seconds, 1)
                + " s, that was not judged; record full strokes there and raise repeats, or cut the"
                + " trace")
        : Optional.empty();
  }

  private boolean isOff(Measure measure, double seconds, double way) {
    DoublePredicate fails =
        s ->
            measure
                .word(judged.unit(), s - measure.value().orElseThrow())
                .filter(w -> w == Word.FAIL || w == Word.CONDITIONAL_FAIL)
                .isPresent();
    double share = way >= NEARLY_FULL_PERCENT ? 0.0 : ENDS_PERCENT / way;
    return DoubleStream.of(1.0 - share, 1.0, 1.0 + share).map(f -> f * seconds).allMatch(fails);
  }
}
