package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Measures;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/**
 * What is made of the readings that were asked for, made of all that were written: several of them
 * may hide together what none shows alone. Of the places that nobody asked for only those count
 * that were reached from both sides, for an average of one side is no average. Immutable.
 */
final class AllRests {
  private final StaticCharacteristic asked;
  private final StaticCharacteristic all;

  AllRests(TravelReadings taken) {
    this.asked = new StaticCharacteristic(taken.readings());
    List<RestReading> readings = new ArrayList<>(taken.readings());
    StaticCharacteristic together = new StaticCharacteristic(joined(taken));
    taken.others().stream()
        .filter(
            r ->
                !together.at(r.setpointPercent(), opposite(r.direction())).isEmpty()
                    || !asked.at(r.setpointPercent(), r.direction()).isEmpty())
        .forEach(readings::add);
    this.all = new StaticCharacteristic(readings);
  }

  private static List<RestReading> joined(TravelReadings taken) {
    List<RestReading> readings = new ArrayList<>(taken.readings());
    readings.addAll(taken.others());
    return readings;
  }

  private static Direction opposite(Direction direction) {
    return direction == Direction.UP ? Direction.DOWN : Direction.UP;
  }

  /** The measures, without those that all readings together would not let pass. */
  List<Measure> heldAgainst(UnitType unit, List<Measure> measures) {
    return measures.stream().map(m -> heldAgainst(unit, m)).toList();
  }

  private Measure heldAgainst(UnitType unit, Measure measure) {
    double more = value(measure.kind(), all) - value(measure.kind(), asked);
    Optional<Word> word = measure.word(unit, 0.0);
    boolean stands =
        measure.value().isEmpty()
            || word.isEmpty()
            || word.get() == Word.FAIL
            || !(more > 0.0)
            || word.equals(measure.word(unit, Math.signum(measure.value().get()) * more));
    return stands
        ? measure
        : Measures.none(
            measure.kind(),
            measure.place(),
            measure.truth(),
            measure.method(),
            "with the extra readings of the file it is "
                + Numbers.fixed(more, 2)
                + " % more: ask for the points and cycles that were written");
  }

  /** The magnitude of what readings say; NaN of what others don't change. */
  private static double value(MeasureKind kind, StaticCharacteristic readings) {
    return switch (kind) {
      case HYSTERESIS_PLUS_DEAD_BAND, HYSTERESIS ->
          readings.setpoints().stream()
              .mapToDouble(at -> farthest(readings, at))
              .max()
              .orElse(Double.NaN);
      case HYSTERESIS_PLUS_DEAD_BAND_MEANS, HYSTERESIS_MEANS ->
          readings
              .hysteresisPlusDeadBand(Pairing.MEANS)
              .map(lag -> Math.abs(lag.percent()))
              .orElse(Double.NaN);
      case LINEARITY_INDEPENDENT, LINEARITY_TERMINAL, LINEARITY_ZERO_BASED ->
          readings.setpoints().size() < 3
              ? Double.NaN
              : Math.abs(DrawnTravel.deviation(kind, readings.averageCurve()).deviation());
      case ZERO_ERROR -> magnitude(readings.zeroError());
      case SPAN_ERROR -> magnitude(readings.spanError());
      default -> Double.NaN;
    };
  }

  /** Down from up at a place, any two: rows need not stand in the order of the passes. */
  private static double farthest(StaticCharacteristic readings, double at) {
    return readings.at(at, Direction.UP).stream()
        .flatMapToDouble(
            up ->
                readings.at(at, Direction.DOWN).stream()
                    .mapToDouble(down -> Math.abs(down.errorPercent() - up.errorPercent())))
        .max()
        .orElse(0.0);
  }

  private static double magnitude(OptionalDouble value) {
    return value.isPresent() ? Math.abs(value.getAsDouble()) : Double.NaN;
  }
}
