package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.PositionBudget;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/**
 * Holds what a file of others shows beside the readings that were asked for against what those say
 * of its place. Where one contradicts them by so much that a measure made of the asked readings
 * alone could be judged otherwise, that measure has no result; a fail stands. Travel error is
 * judged for every reading by itself. Immutable.
 */
final class UnaskedRests {
  private static final double SAME_PERCENT = 1.0e-6;

  private final TravelReadings taken;
  private final PositionBudget budget;
  private final StaticCharacteristic characteristic;

  private UnaskedRests(TravelReadings taken, PositionBudget budget) {
    this.taken = taken;
    this.budget = budget;
    this.characteristic = new StaticCharacteristic(taken.readings());
  }

  /**
   * The measures of a travel error test, without those that another rest of its file contradicts. A
   * run of this program takes its readings itself, by a plan that it keeps.
   */
  static List<Measure> heldAgainst(
      JudgedBench judged, TravelReadings taken, List<Measure> measures) {
    if (!judged.recordedElsewhere() || taken.others().isEmpty()) {
      return measures;
    }
    UnitType unit = judged.unit();
    List<Measure> held =
        contradiction(judged, taken)
            .map(off -> measures.stream().map(m -> heldAgainst(unit, taken, m, off)).toList())
            .orElse(measures);
    return new AllRests(taken).heldAgainst(unit, held);
  }

  /** The same as a sentence for the reader of the verdict. */
  static Optional<String> finding(JudgedBench judged, TravelReadings taken) {
    String by = taken.truth() == Truth.STEM ? "By the stem, " : "By the feedback, ";
    return contradiction(judged, taken)
        .map(
            off ->
                by
                    + off.words(taken)
                    + ". A measure of the readings asked for that this one could change has no"
                    + " result.");
  }

  private static Optional<Off> contradiction(JudgedBench judged, TravelReadings taken) {
    return judged.recordedElsewhere()
        ? new UnaskedRests(taken, judged.budget(taken.truth())).contradiction()
        : Optional.empty();
  }

  private static Measure heldAgainst(
      UnitType unit, TravelReadings taken, Measure measure, Off off) {
    boolean apart = measure.kind() == MeasureKind.TRAVEL_ERROR || measure.value().isEmpty();
    Optional<Word> word = measure.word(unit, 0.0);
    if (apart || word.isEmpty() || word.get() == Word.FAIL) {
      return measure;
    }
    // One reading may be off upwards and another downwards.
    double percent = 2.0 * Math.abs(off.percent());
    double shift =
        measure.kind() == MeasureKind.QUADRANT ? percent * unit.travelDegrees() / 100.0 : percent;
    boolean stands =
        word.equals(measure.word(unit, shift)) && word.equals(measure.word(unit, -shift));
    return stands
        ? measure
        : Measures.none(
            measure.kind(), measure.place(), measure.truth(), measure.method(), off.words(taken));
  }

  /** By how much another rest is off what the asked readings say, and what that may be, %. */
  private record Off(RestReading other, double percent, double half) {
    boolean contradicts() {
      return Math.abs(percent) > half;
    }

    String words(TravelReadings taken) {
      double at = other.setpointPercent();
      boolean point =
          taken.spec().points().stream().anyMatch(p -> Math.abs(p.percent() - at) <= SAME_PERCENT);
      return "another reading at "
          + Numbers.upTo(at, 3)
          + " % "
          + other.direction().text()
          + " is "
          + Numbers.fixed(Math.abs(percent), 2)
          + " % off what the readings asked for show at that place (more than "
          + Numbers.fixed(half, 2)
          + " %): ask for "
          + (point ? "as many cycles as were written" : "that point");
    }
  }

  /** The other rest that contradicts the asked readings most, in words. */
  private Optional<Off> contradiction() {
    if (taken.readings().isEmpty() || budget.instruments().lacking().isPresent()) {
      return Optional.empty();
    }
    return taken.others().stream()
        .map(this::off)
        .filter(Off::contradicts)
        .max(Comparator.comparingDouble(off -> Math.abs(off.percent())));
  }

  private Off off(RestReading other) {
    List<List<RestReading>> neighbours = neighbours(other);
    List<RestReading> below = neighbours.get(0);
    List<RestReading> above = neighbours.get(neighbours.size() - 1);
    double from = below.get(0).setpointPercent();
    double to = above.get(0).setpointPercent();
    double share = to > from ? (other.setpointPercent() - from) / (to - from) : 0.0;
    double expected = error(below) * (1.0 - share) + error(above) * share;
    double half = neighbours.stream().mapToDouble(n -> half(n, other)).max().orElseThrow();
    return new Off(other, other.errorPercent() - expected, half);
  }

  /** The asked readings next below and above, or at the place; at the ends the outermost alone. */
  private List<List<RestReading>> neighbours(RestReading other) {
    double at = other.setpointPercent();
    List<List<RestReading>> asked = asked(other.direction());
    List<List<RestReading>> neighbours = new ArrayList<>();
    asked.stream()
        .filter(g -> g.get(0).setpointPercent() <= at + SAME_PERCENT)
        .reduce((first, last) -> last)
        .ifPresent(neighbours::add);
    asked.stream()
        .filter(g -> g.get(0).setpointPercent() >= at - SAME_PERCENT)
        .findFirst()
        .ifPresent(neighbours::add);
    return neighbours;
  }

  /** Point by point, rising; of both sides where nothing was asked for from this one. */
  private List<List<RestReading>> asked(Direction direction) {
    List<List<RestReading>> side = new ArrayList<>();
    for (double at : characteristic.setpoints()) {
      List<RestReading> here = characteristic.at(at, direction);
      if (!here.isEmpty()) {
        side.add(here);
      }
    }
    return side.isEmpty() ? asked(opposite(direction)) : side;
  }

  private static Direction opposite(Direction direction) {
    return direction == Direction.UP ? Direction.DOWN : Direction.UP;
  }

  private static double error(List<RestReading> cycles) {
    OptionalDouble mean = cycles.stream().mapToDouble(RestReading::errorPercent).average();
    return mean.orElseThrow();
  }

  /** U of the difference between the mean error at a point and one other reading, %. */
  private double half(List<RestReading> cycles, RestReading other) {
    List<Component> components = new ArrayList<>(budget.error(cycles));
    components.addAll(budget.instruments().steps(other.setpointPercent()));
    components.addAll(budget.rest(List.of(other)));
    return new Budget(MeasureKind.TRAVEL_ERROR.unit(), components).expand().half();
  }
}
