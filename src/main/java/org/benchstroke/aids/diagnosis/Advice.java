package org.benchstroke.aids.diagnosis;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Truth;
import org.benchstroke.unit.MeasureKind;

/** What to adjust, and by how much where the run's figures tell it. */
final class Advice {
  /** No amount is known better, % of travel; our choice. */
  private static final double LEAST_HALF = 0.05;

  private final JudgedRun run;
  private final Signs signs;
  private final Supplier<Twin> twin;

  Advice(JudgedRun run, Signs signs, Supplier<Twin> twin) {
    this.run = run;
    this.signs = signs;
    this.twin = twin;
  }

  /** A line; the unit's own manual comes first. */
  String of(Cause cause) {
    return cause.advice() + amount(cause).map(a -> " (" + a + ")").orElse("");
  }

  private Optional<String> amount(Cause cause) {
    double degrees = run.unit().travelDegrees() / 100.0;
    return switch (cause) {
      case ZERO_SHIFT, GROUND_OFFSET, INPUT_ZERO ->
          signs.feedback().map(l -> opposite(l.zero(), MeasureKind.ZERO_ERROR));
      case SPAN -> signs.feedback().map(l -> opposite(l.rise(), MeasureKind.SPAN_ERROR));
      case THERMAL_DRIFT ->
          signs
              .feedback()
              .filter(l -> l.drift().told())
              .map(l -> "it went by " + percent(l.drift().value()) + " meanwhile");
      case QUADRANT_OFF -> signs.beside().map(l -> "off by " + angle(l.zero().value() * degrees));
      case SLACK_AFTER_SENSOR, STICTION ->
          signs.beside().map(l -> "about " + Numbers.fixed(l.lag().value(), 1) + " % of travel");
      case NON_LINEAR_LINKAGE ->
          signs
              .beside()
              .flatMap(Advice::bent)
              .or(() -> signs.feedback().flatMap(Advice::bent))
              .map(t -> "it bends by " + percent(t.value()));
      case CAM_SET_SHORT -> shortEnd().map(d -> "trip it " + angle(d * degrees) + " later");
      case STOP_BEFORE_SWITCH ->
          shortEnd().map(d -> "by " + angle(d * degrees) + " and a little more");
      case DEAD_BAND_TOO_SMALL -> wider();
      case LONG_COAST ->
          signs
              .feedback()
              .filter(l -> l.lag().told())
              .map(l -> "it goes past by " + Numbers.fixed(-l.lag().value() / 2.0, 2) + " %");
      case BACKLASH_BEFORE_SENSOR -> reversal();
      default -> Optional.empty();
    };
  }

  private static Optional<Law.Term> bent(Law law) {
    return law.bent().filter(t -> t.beyond(Law.WORTH_SAYING));
  }

  /** By how much it stops short, % of travel; the largest. */
  private Optional<Double> shortEnd() {
    OptionalDouble most =
        signs.stands().stream()
            .filter(s -> !s.within() && s.setpointPercent() >= 0.0 && s.setpointPercent() <= 100.0)
            .mapToDouble(s -> Math.abs(s.errorPercent()))
            .max();
    return most.isPresent() && most.getAsDouble() > 0.5
        ? Optional.of(most.getAsDouble())
        : Optional.empty();
  }

  /** The twin knows it; of a unit that hunts it takes no fitting. */
  private Optional<String> wider() {
    OptionalDouble least = twin.get().leastStartPercent();
    return least.isPresent()
        ? Optional.of("start threshold to " + Numbers.fixed(least.getAsDouble(), 2) + " % or more")
        : Optional.empty();
  }

  private Optional<String> reversal() {
    OptionalDouble up = deadTime(new Location.StepOf(Signs.REVERSAL_STEP_PERCENT, Direction.UP));
    OptionalDouble down =
        deadTime(new Location.StepOf(Signs.REVERSAL_STEP_PERCENT, Direction.DOWN));
    if (up.isEmpty() || down.isEmpty()) {
      return Optional.empty();
    }
    double play = (down.getAsDouble() - up.getAsDouble()) * run.unit().percentPerSecond();
    return play < LEAST_HALF
        ? Optional.empty()
        : Optional.of("about " + Numbers.fixed(play, 1) + " % of travel");
  }

  private OptionalDouble deadTime(Location place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.DEAD_TIME && m.place().equals(place))
        .flatMap(m -> m.value().stream())
        .mapToDouble(v -> v)
        .findFirst();
  }

  /** What takes an error away; its instruments make it no surer than the measure itself is. */
  private String opposite(Law.Term error, MeasureKind kind) {
    double half =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.kind() == kind && m.truth() == Truth.FEEDBACK)
            .flatMap(m -> m.budget().stream())
            .mapToDouble(b -> b.expand().half())
            .findFirst()
            .orElse(LEAST_HALF);
    double whole = Math.max(LEAST_HALF, Math.hypot(error.half(), half));
    return "by " + Numbers.signedWithin(-error.value(), whole, 2, "%");
  }

  private static String percent(double value) {
    return Numbers.signed(value, 1) + " %";
  }

  private static String angle(double degrees) {
    return Numbers.fixed(Math.abs(degrees), 1) + "°";
  }
}
