package org.benchstroke.setup;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.io.instrument.LimitSwitch;

/**
 * What is read just now. Immutable.
 *
 * @param degrees the stem's angle, °, where a reference reads it
 * @param percent the position by the unit's feedback, %, where it is read
 * @param targetDegrees where to go, or where the switch is to trip, °
 * @param toleranceDegrees how far off that it may be, °
 * @param switches those that an instrument watches, and whether each is made
 * @param watched the one whose cam is being set
 * @param hint what to do with it now
 * @param trip where it tripped last
 * @param reset where it reset last
 * @param changes how often it changed at this step: a face sounds a tone each time
 * @param calibration the unit's own calibration, once it was begun
 * @param fault why something can't be read; empty if all can
 */
public record Live(
    OptionalDouble degrees,
    OptionalDouble percent,
    OptionalDouble targetDegrees,
    double toleranceDegrees,
    Map<LimitSwitch, Boolean> switches,
    Optional<LimitSwitch> watched,
    Optional<Hint> hint,
    Optional<Edge> trip,
    Optional<Edge> reset,
    long changes,
    Optional<Calibrating> calibration,
    String fault) {
  static final Live NOTHING =
      new Live(
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          0.0,
          Map.of(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          0,
          Optional.empty(),
          "");

  public Live {
    switches = Map.copyOf(switches);
  }

  /**
   * The unit's own calibration.
   *
   * @param seconds since it was begun, s
   * @param usualSeconds how long it usually takes, s; 0 if nobody says
   * @param way "closing", "opening" or "stands"
   * @param lowest the lowest that was read
   * @param highest the highest that was read
   * @param unit of both, "°" or "%"
   */
  public record Calibrating(
      double seconds,
      double usualSeconds,
      String way,
      OptionalDouble lowest,
      OptionalDouble highest,
      String unit) {}

  /** Whether the switch that is being set is made; empty where nobody sees it. */
  public Optional<Boolean> made() {
    return watched.flatMap(which -> Optional.ofNullable(switches.get(which)));
  }
}
