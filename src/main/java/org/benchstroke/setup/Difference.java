package org.benchstroke.setup;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.record.Event;
import org.benchstroke.unit.DisplayFact;
import org.benchstroke.unit.UnitType;

/**
 * Something that was noted of a unit when it was set up and is not as ordered. Immutable.
 *
 * @param fact what the display says of it; empty of what is no fact of the display
 * @param what in words
 * @param found what was noted
 * @param ordered what it should be
 * @param blocks whether no test may begin before that is put right
 */
public record Difference(
    Optional<DisplayFact> fact, String what, String found, String ordered, boolean blocks) {
  /** A supply may be so far off. ISO 22153, from memory. */
  private static final double SUPPLY_SHARE = 0.10;

  /** A display shows a dead band no finer. Common practice, no source. */
  private static final double DEAD_BAND_PERCENT = 0.051;

  /** As a sentence. */
  public String sentence() {
    return what + ": noted is " + found + ", ordered is " + ordered;
  }

  /** All of a set-up, by the steps that were recorded. */
  public static List<Difference> of(List<Event.SetUpStep> steps, UnitType unit) {
    List<Difference> all = new ArrayList<>();
    for (Event.SetUpStep step : steps) {
      if (step.step().equals(StepKey.DISPLAY.key())) {
        all.addAll(display(step, unit));
      } else if (step.step().equals(StepKey.CALIBRATION.key())) {
        failed(step).ifPresent(all::add);
      } else if (step.step().equals(StepKey.MATE.key())) {
        quadrant(step).ifPresent(all::add);
      }
    }
    return all;
  }

  private static Optional<Difference> failed(Event.SetUpStep step) {
    return stated(step, FieldKey.RESULT)
        .filter("failed"::equals)
        .map(found -> plain("the unit's own calibration", found, "succeeded"));
  }

  private static Optional<Difference> quadrant(Event.SetUpStep step) {
    return stated(step, FieldKey.STEM_MARK)
        .filter("no"::equals)
        .map(found -> plain("stem mark at closed", found, "yes"));
  }

  private static Difference plain(String what, String found, String ordered) {
    return new Difference(Optional.empty(), what, found, ordered, false);
  }

  private static List<Difference> display(Event.SetUpStep step, UnitType unit) {
    Set<DisplayFact> must = EnumSet.noneOf(DisplayFact.class);
    must.addAll(unit.setUp().mustAgree());
    List<Difference> all = new ArrayList<>();
    for (DisplayFact fact : DisplayFact.values()) {
      compared(fact, step, unit)
          .filter(pair -> !pair.agree())
          .map(
              pair ->
                  new Difference(
                      Optional.of(fact),
                      fact.key() + " on the unit's display",
                      pair.found(),
                      pair.ordered(),
                      must.contains(fact)))
          .ifPresent(all::add);
    }
    return all;
  }

  /** What was noted and what was ordered, in words, and whether they agree. */
  private record Compared(String found, String ordered, boolean agree) {}

  private static Optional<Compared> compared(
      DisplayFact fact, Event.SetUpStep step, UnitType unit) {
    return switch (fact) {
      case SOFTWARE -> words(stated(step, FieldKey.SOFTWARE), unit.setUp().software());
      case VOLTAGE ->
          unit.setUp().supplyVolts().isEmpty()
              ? Optional.empty()
              : number(
                  step.figures(),
                  FieldKey.VOLTAGE_V,
                  unit.setUp().supplyVolts().getAsDouble(),
                  SUPPLY_SHARE * unit.setUp().supplyVolts().getAsDouble(),
                  " V");
      case DEAD_BAND ->
          number(
              step.figures(),
              FieldKey.DEAD_BAND_PCT,
              unit.deadBandPercent(),
              DEAD_BAND_PERCENT,
              " %");
      case LOSS_ACTION ->
          words(stated(step, FieldKey.LOSS_ACTION), Optional.of(unit.signalLoss().action().key()));
      case DIRECTION ->
          words(
              stated(step, FieldKey.DIRECTION),
              Optional.of(unit.signal().spanMilliamps() < 0 ? "reverse" : "direct"));
    };
  }

  private static Optional<String> stated(Event.SetUpStep step, FieldKey key) {
    return Optional.ofNullable(step.facts().get(key.key()));
  }

  private static Optional<Compared> words(Optional<String> found, Optional<String> ordered) {
    return found.flatMap(
        f -> ordered.map(o -> new Compared(f, o, f.strip().equalsIgnoreCase(o.strip()))));
  }

  private static Optional<Compared> number(
      Map<String, Double> figures, FieldKey key, double ordered, double within, String unit) {
    return Optional.ofNullable(figures.get(key.key()))
        .map(
            found ->
                new Compared(
                    Numbers.plain(found) + unit,
                    Numbers.plain(ordered) + unit,
                    Math.abs(found - ordered) <= within));
  }
}
