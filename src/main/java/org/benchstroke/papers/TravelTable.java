package org.benchstroke.papers;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.analysis.StaticCharacteristic;
import org.benchstroke.core.analysis.StaticCharacteristic.Pairing;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.tests.travel.TravelError;
import org.benchstroke.unit.MeasureKind;

/** The travel error by setpoint, one row each, as technicians like it. Stateless. */
final class TravelTable {
  private TravelTable() {}

  /**
   * One setpoint.
   *
   * @param setpoint % of travel
   * @param up the error when it was approached from below
   * @param down the error when it was approached from above
   * @param adjacent hysteresis + dead band, the largest of adjacent passes
   * @param means the same by means: mean down − mean up
   */
  record Row(
      double setpoint,
      Optional<Figure> up,
      Optional<Figure> down,
      Optional<Figure> adjacent,
      Optional<Figure> means) {}

  /**
   * A value with its uncertainty.
   *
   * @param value %
   * @param half U, %; empty where none was stated
   */
  record Figure(double value, OptionalDouble half) {
    int decimals() {
      return Figures.decimals(half.orElse(0.0));
    }

    String text() {
      return Numbers.signed(value, decimals());
    }

    String halfText() {
      return half.isPresent() ? Figures.half(half.getAsDouble()) : Figures.NONE;
    }
  }

  static List<RestReading> readings(JudgedRun run, Truth truth) {
    return truth == Truth.STEM ? run.stem() : run.feedback();
  }

  /** The rows by rising setpoint; empty without readings. */
  static List<Row> rows(JudgedRun run, Truth truth) {
    List<RestReading> readings = readings(run, truth);
    if (readings.isEmpty()) {
      return List.of();
    }
    // ordered points without a reading keep their row: what is missing must be seen
    return Stream.concat(readings.stream().map(RestReading::setpointPercent), ordered(run))
        .distinct()
        .sorted()
        .map(setpoint -> row(run, truth, readings, setpoint))
        .toList();
  }

  private static Stream<Double> ordered(JudgedRun run) {
    return run.procedure().tests().stream()
        .filter(TravelError.class::isInstance)
        .map(TravelError.class::cast)
        .flatMap(test -> test.points().stream())
        .map(Position::percent);
  }

  private static Row row(JudgedRun run, Truth truth, List<RestReading> readings, double setpoint) {
    Optional<Figure> up = error(run, truth, readings, setpoint, Direction.UP);
    Optional<Figure> down = error(run, truth, readings, setpoint, Direction.DOWN);
    Location place = new Location.Point(setpoint);
    Optional<Figure> difference =
        up.flatMap(u -> down.map(d -> new Figure(d.value() - u.value(), OptionalDouble.empty())));
    Optional<Figure> passes =
        new StaticCharacteristic(readings)
            .lags(Pairing.ADJACENT_PASSES).stream()
                .filter(lag -> lag.setpointPercent() == setpoint)
                .findFirst()
                .map(lag -> new Figure(lag.percent(), OptionalDouble.empty()));
    MeasureKind adjacent = MeasureKind.HYSTERESIS_PLUS_DEAD_BAND;
    MeasureKind means = MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS;
    return new Row(
        setpoint,
        up,
        down,
        judged(run, adjacent, truth, place).or(() -> passes),
        judged(run, means, truth, place).or(() -> difference));
  }

  /** Whether some point was met more than once from a side: else both pairings are the same. */
  static boolean paired(JudgedRun run, Truth truth) {
    StaticCharacteristic read = new StaticCharacteristic(readings(run, truth));
    return read.setpoints().stream().anyMatch(at -> read.adjacentPasses(at).size() > 1);
  }

  private static Optional<Figure> error(
      JudgedRun run,
      Truth truth,
      List<RestReading> readings,
      double setpoint,
      Direction direction) {
    Location place = new Location.Side(setpoint, direction);
    OptionalDouble mean =
        readings.stream()
            .filter(r -> r.setpointPercent() == setpoint && r.direction() == direction)
            .mapToDouble(RestReading::errorPercent)
            .average();
    Optional<Figure> read =
        mean.isPresent()
            ? Optional.of(new Figure(mean.getAsDouble(), OptionalDouble.empty()))
            : Optional.empty();
    return judged(run, MeasureKind.TRAVEL_ERROR, truth, place).or(() -> read);
  }

  /** The judged value, so that the table and the measures never disagree. */
  private static Optional<Figure> judged(
      JudgedRun run, MeasureKind kind, Truth truth, Location place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.truth() == truth && m.place().equals(place))
        .filter(m -> m.value().isPresent())
        .findFirst()
        .map(TravelTable::figure);
  }

  private static Figure figure(Measure measure) {
    Optional<Expanded> expanded = Figures.expanded(measure);
    return new Figure(
        measure.value().orElseThrow(),
        expanded.isPresent() ? OptionalDouble.of(expanded.get().half()) : OptionalDouble.empty());
  }
}
