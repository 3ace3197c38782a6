package org.benchstroke.report;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.analysis.Direction;
import org.benchstroke.analysis.RestReading;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.procedure.TravelError;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;
import org.benchstroke.uncertainty.Expanded;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;
import org.benchstroke.verdict.Measure;
import org.benchstroke.verdict.Truth;

/** The travel error by setpoint, one row each, as technicians like it. Stateless. */
final class TravelTable {
  private TravelTable() {}

  /**
   * One setpoint.
   *
   * @param setpoint % of travel
   * @param up the error when it was approached from below
   * @param down the error when it was approached from above
   * @param hysteresis hysteresis + dead band: mean down − mean up
   */
  record Row(
      double setpoint, Optional<Figure> up, Optional<Figure> down, Optional<Figure> hysteresis) {}

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
      return half.isPresent() ? Numbers.fixed(half.getAsDouble(), decimals()) : Figures.NONE;
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
    String place = Numbers.plain(setpoint) + " %";
    Optional<Figure> judged = judged(run, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, truth, place);
    Optional<Figure> difference =
        up.flatMap(u -> down.map(d -> new Figure(d.value() - u.value(), OptionalDouble.empty())));
    return new Row(setpoint, up, down, judged.or(() -> difference));
  }

  private static Optional<Figure> error(
      JudgedRun run,
      Truth truth,
      List<RestReading> readings,
      double setpoint,
      Direction direction) {
    String place = Numbers.plain(setpoint) + " % " + direction.text();
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
      JudgedRun run, MeasureKind kind, Truth truth, String place) {
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
