package org.benchstroke.run;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.benchstroke.core.analysis.MotionMeter;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.unit.Duty;
import org.benchstroke.unit.UnitType;

/**
 * Keeps the test within what the motor may do: by what the unit type states, or by usual limits
 * where it states none. One thread.
 */
final class DutyWatch {
  private static final double DWELL_SECONDS = 0.2;

  private final Duty duty;
  private final double thresholdPercent;
  private final double dwellSeconds;
  private final MotionMeter run;

  /** When the unit started, of the last {@link Duty#WINDOW_SECONDS}, s. */
  private final Deque<Double> starts = new ArrayDeque<>();

  private MotionMeter hold;
  private int bySelf;
  private double lastSeconds;

  DutyWatch(UnitType unit, double samplePeriodSeconds) {
    this.duty = unit.duty();
    double band = unit.practice().restBandPercent();
    this.thresholdPercent = Math.max(2.0 * band, unit.deadBandPercent() / 4.0);
    this.dwellSeconds = Math.max(DWELL_SECONDS, 2.0 * samplePeriodSeconds);
    this.run = meter();
    this.hold = meter();
  }

  private MotionMeter meter() {
    return new MotionMeter(thresholdPercent, dwellSeconds);
  }

  /**
   * Takes every sample of the run.
   *
   * @throws RunEnded if the unit goes on starting by itself when it has had its starts: nothing
   *     that the program could wait for makes it rest
   */
  void add(Reading<Position> reading) throws RunEnded {
    lastSeconds = reading.stampNanos() / 1e9;
    int before = run.starts();
    run.add(lastSeconds, reading.value().percent());
    hold.add(lastSeconds, reading.value().percent());
    for (int i = before; i < run.starts(); i++) {
      starts.add(lastSeconds);
      bySelf++;
    }
    while (!starts.isEmpty() && starts.peek() <= lastSeconds - Duty.WINDOW_SECONDS) {
      starts.remove();
    }
    if (starts.size() > allowed() && bySelf > Duty.FEW_STARTS) {
      throw new RunEnded(
          RunEnded.How.FAULT,
          limited(starts.size(), lastSeconds - starts.element())
              + "; the unit starts by itself where it is held: look for hunting or noise on the"
              + " signal, and let the motor cool");
    }
  }

  /** The signal changed: a start or two are its doing. */
  void commanded() {
    bySelf = 0;
  }

  private int allowed() {
    return (int) duty.startsAllowed(Duty.WINDOW_SECONDS);
  }

  /** The rest that the unit must have before it is moved again, s; 0 or less if none. */
  double restSeconds() {
    double ofMotion = duty.restSeconds(run.movedSeconds(), run.watchedSeconds());
    int over = starts.size() - allowed();
    if (over < 0) {
      return ofMotion;
    }
    double leaves = starts.stream().skip(over).findFirst().orElseThrow();
    return Math.max(ofMotion, leaves + Duty.WINDOW_SECONDS - lastSeconds);
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
    return hold.starts() <= duty.startsAllowed(seconds)
        ? Optional.empty()
        : Optional.of(limited(hold.starts(), hold.watchedSeconds()));
  }

  private String limited(int counted, double seconds) {
    return "stopped by the starts limit: "
        + counted
        + " starts in "
        + Numbers.fixed(seconds, 1)
        + " s, where "
        + duty.startsText();
  }
}
