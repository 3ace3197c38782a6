package org.benchstroke.run;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.analysis.MotionMeter;
import org.benchstroke.bench.UnitType;
import org.benchstroke.instrument.Reading;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;

/** Keeps the test within what the motor may do, as far as the unit type states it. One thread. */
final class DutyWatch {
  private static final double DWELL_SECONDS = 0.2;

  private final UnitType unit;
  private final double thresholdPercent;
  private final double dwellSeconds;
  private final MotionMeter run;
  private MotionMeter hold;

  DutyWatch(UnitType unit, double samplePeriodSeconds) {
    this.unit = unit;
    double band = unit.practice().restBandPercent();
    this.thresholdPercent = Math.max(2.0 * band, unit.deadBandPercent() / 4.0);
    this.dwellSeconds = Math.max(DWELL_SECONDS, 2.0 * samplePeriodSeconds);
    this.run = meter();
    this.hold = meter();
  }

  private MotionMeter meter() {
    return new MotionMeter(thresholdPercent, dwellSeconds);
  }

  /** Takes every sample of the run. */
  void add(Reading<Position> reading) {
    double seconds = reading.stampNanos() / 1e9;
    run.add(seconds, reading.value().percent());
    hold.add(seconds, reading.value().percent());
  }

  /** The rest that the unit must have before it is moved again, s; 0 or less if none. */
  double restSeconds() {
    return unit.duty().restSeconds(run.movedSeconds(), run.watchedSeconds());
  }

  /** Begins to count the starts anew. */
  void beginHold() {
    hold = meter();
  }

  /**
   * Whether there were more starts since {@link #beginHold()} than are allowed in a time.
   *
   * @param seconds the time, s
   * @return what to say; empty if not
   */
  Optional<String> tooManyStarts(double seconds) {
    OptionalDouble allowed = unit.duty().startsAllowed(seconds);
    if (allowed.isEmpty() || hold.starts() <= allowed.getAsDouble()) {
      return Optional.empty();
    }
    return Optional.of(
        "stopped by the starts limit: "
            + hold.starts()
            + " starts in "
            + Numbers.fixed(hold.watchedSeconds(), 1)
            + " s, where "
            + Numbers.plain(unit.duty().startsPerHour().orElseThrow())
            + " an hour are allowed");
  }
}
