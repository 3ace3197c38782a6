package org.benchstroke.diagnosis;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.twin.Twin;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;

/** What to adjust, and by how much where the run's figures tell it. */
final class Advice {
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
      case ZERO_SHIFT, GROUND_OFFSET -> signs.feedback().map(l -> "by " + opposite(l.middle()));
      case SPAN -> signs.feedback().map(l -> "by " + opposite(l.rise()));
      case THERMAL_DRIFT ->
          signs
              .feedback()
              .filter(l -> l.drift().told())
              .map(l -> "it went by " + percent(l.drift().value()) + " meanwhile");
      case QUADRANT_OFF -> signs.beside().map(l -> "off by " + angle(l.middle().value() * degrees));
      case SLACK_AFTER_SENSOR, STICTION ->
          signs.beside().map(l -> "about " + Numbers.fixed(l.lag().value(), 1) + " % of travel");
      case NON_LINEAR_LINKAGE ->
          signs
              .beside()
              .filter(l -> l.bend().told())
              .map(l -> "its S is " + percent(l.bend().value()));
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
    OptionalDouble up = deadTime("10 % up");
    OptionalDouble down = deadTime("10 % down");
    if (up.isEmpty() || down.isEmpty()) {
      return Optional.empty();
    }
    double play = (down.getAsDouble() - up.getAsDouble()) * run.unit().percentPerSecond();
    return Optional.of("about " + Numbers.fixed(play, 1) + " % of travel");
  }

  private OptionalDouble deadTime(String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == MeasureKind.DEAD_TIME && m.place().equals(place))
        .flatMap(m -> m.value().stream())
        .mapToDouble(v -> v)
        .findFirst();
  }

  /** What takes an error away. */
  private static String opposite(Law.Term error) {
    return Numbers.signed(-error.value(), 2) + " ± " + Numbers.fixed(error.half(), 2) + " %";
  }

  private static String percent(double value) {
    return Numbers.signed(value, 1) + " %";
  }

  private static String angle(double degrees) {
    return Numbers.fixed(Math.abs(degrees), 1) + "°";
  }
}
