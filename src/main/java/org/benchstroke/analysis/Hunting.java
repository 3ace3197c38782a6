package org.benchstroke.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.analysis.Estimate.Part;
import org.benchstroke.quantity.Numbers;

/**
 * What a position does while the setpoint is held: whether it goes to and fro. A turn is a change
 * of direction of more than a threshold that noise can't reach; the turning points between are the
 * extremes. Immutable.
 *
 * @param turns changes of direction
 * @param peakToPeak the mean distance between neighbouring turning points, %; without two of them
 *     the range of all positions
 * @param periodSeconds the mean time of a whole cycle, s; empty with fewer than three turning
 *     points, or where noise hides when they were
 * @param irregularity the standard deviation of the half periods over their mean; empty with fewer
 *     than four turning points, or where noise hides when they were
 * @param turnsPerMinute turning points a minute: from the first to the last of them; with fewer
 *     than three, or where noise hides when they were, their number over the time
 * @param starts starts of motion, see {@link MotionMeter}
 * @param startsPerHour starts an hour: from the second to the last of them; with fewer than four
 *     their number over the time
 * @param seconds how long it was watched, s
 * @param thresholdPercent what counted as motion, %
 * @param intervalSeconds the mean time between two samples, s
 * @param insufficient why the sampling can't tell rest from a cycle, in words; empty if it can
 */
public record Hunting(
    int turns,
    Estimate peakToPeak,
    OptionalDouble periodSeconds,
    OptionalDouble irregularity,
    Estimate turnsPerMinute,
    int starts,
    Estimate startsPerHour,
    double seconds,
    double thresholdPercent,
    double intervalSeconds,
    Optional<String> insufficient) {
  /** Noise reaches a distance of six deviations between two readings once in a hundred thousand. */
  private static final double DEVIATIONS = 6.0;

  private static final double STEPS = 2.0;

  /** The range of a thousand readings exceeds the distance of two. */
  private static final double BEYOND_NOISE = 1.5;

  /** With fewer samples a cycle it may show no more than a part of itself. */
  private static final double SAMPLES_TO_SEE = 4.0;

  /** With fewer its extremes fall between samples. Common practice, no source. */
  private static final double SAMPLES_TO_MEASURE = 10.0;

  private static final double REGULAR = 0.35;
  private static final int LEAST_CYCLE_TURNS = 4;

  /**
   * Measures a hold.
   *
   * @param trace the position while the setpoint was held; at least two samples
   * @param noise of the position at rest
   * @param leastPercent motion of less than this does not matter, %, above 0
   * @param fastestCycleSeconds no cycle of the unit can be quicker, s, above 0
   */
  public static Hunting of(
      Trace trace, PositionNoise noise, double leastPercent, double fastestCycleSeconds) {
    double threshold =
        Math.max(
            leastPercent,
            Math.max(DEVIATIONS * noise.deviationPercent(), STEPS * noise.resolutionPercent()));
    List<Integer> turning = turningPoints(trace, threshold);
    List<Turn> turns = turning.stream().map(i -> Turn.around(trace, i, noise)).toList();
    double interval = (trace.seconds(trace.size() - 1) - trace.seconds(0)) / (trace.size() - 1.0);
    List<Turn> timed = apart(turns, interval) ? turns : List.of();
    // The end of a coast creeps; the pause before the next start is half a quickest cycle or more.
    double dwell = Math.max(1.5 * interval, fastestCycleSeconds / 4.0);
    MotionMeter meter = new MotionMeter(threshold, dwell);
    for (int i = 0; i < trace.size(); i++) {
      meter.add(trace.seconds(i), trace.percent(i));
    }
    return new Hunting(
        turning.size(),
        turns.size() < 2 ? Turn.range(trace, noise) : Turn.distance(turns, noise),
        period(timed),
        irregularity(timed),
        timed.size() < 3
            ? counted(turns.size(), meter.watchedSeconds(), 60.0, "reversal")
            : turnsPerMinute(timed, interval, trace.stampHalfSeconds(0)),
        meter.starts(),
        starts(meter, interval, trace.stampHalfSeconds(0), 3600.0),
        meter.watchedSeconds(),
        threshold,
        interval,
        insufficient(interval, fastestCycleSeconds));
  }

  private static Optional<String> insufficient(double interval, double fastest) {
    if (interval * SAMPLES_TO_SEE <= fastest) {
      return Optional.empty();
    }
    return Optional.of(
        "sampling insufficient: a sample every "
            + Numbers.significant(interval, 2)
            + " s can't show a cycle of "
            + Numbers.significant(fastest, 2)
            + " s, which the unit could make; read at least every "
            + Numbers.significant(fastest / SAMPLES_TO_SEE, 2)
            + " s");
  }

  /**
   * The extremes between which the position went by more than the threshold, and came back, as
   * indices of the trace.
   */
  public static List<Integer> turningPoints(Trace trace, double threshold) {
    List<Integer> turning = new ArrayList<>();
    int lowest = 0;
    int highest = 0;
    int direction = 0;
    for (int i = 1; i < trace.size(); i++) {
      double y = trace.percent(i);
      lowest = y < trace.percent(lowest) ? i : lowest;
      highest = y > trace.percent(highest) ? i : highest;
      boolean up = direction <= 0 && y - trace.percent(lowest) > threshold;
      boolean down = direction >= 0 && trace.percent(highest) - y > threshold;
      if (up || down) {
        if (direction != 0) {
          turning.add(up ? lowest : highest);
        }
        direction = up ? 1 : -1;
        lowest = i;
        highest = i;
      }
    }
    return turning;
  }

  /**
   * Whether it is known when it turned. Where noise reaches from one turn to the next, readings of
   * several turns seem to be of one: how many there are is known, not when they were.
   */
  private static boolean apart(List<Turn> turns, double interval) {
    if (turns.size() < 2) {
      return true;
    }
    double span = turns.get(turns.size() - 1).seconds() - turns.get(0).seconds();
    // Neighbours are a sample apart at least.
    return span > (turns.size() - 1.0) * interval / 2.0;
  }

  private static OptionalDouble period(List<Turn> turns) {
    if (turns.size() < 3) {
      return OptionalDouble.empty();
    }
    double span = turns.get(turns.size() - 1).seconds() - turns.get(0).seconds();
    return OptionalDouble.of(2.0 * span / (turns.size() - 1.0));
  }

  private static OptionalDouble irregularity(List<Turn> turns) {
    if (turns.size() < LEAST_CYCLE_TURNS) {
      return OptionalDouble.empty();
    }
    // An on/off controller is away for as long on one side as on the other, but for the difference
    // of its two speeds and its load: both ways together.
    List<Double> halves = new ArrayList<>();
    for (int i = 1; i < turns.size(); i++) {
      halves.add(turns.get(i).seconds() - turns.get(i - 1).seconds());
    }
    Spread spread = Spread.of(halves);
    return OptionalDouble.of(spread.deviation() / spread.mean());
  }

  /** An instant is the middle between two edges, each somewhere between two samples. */
  private static Estimate turnsPerMinute(List<Turn> turns, double interval, double stampHalf) {
    double span = turns.get(turns.size() - 1).seconds() - turns.get(0).seconds();
    double rate = (turns.size() - 1.0) / span * 60.0;
    double each = Math.hypot(interval / Math.sqrt(12.0), stampHalf / Math.sqrt(3.0));
    return new Estimate(
        rate, List.of(Part.normal("instants of the first and the last", rate * each / span)), 0.0);
  }

  /**
   * Starts at a rate.
   *
   * @param per the seconds that it is stated for
   */
  static Estimate starts(MotionMeter meter, double interval, double stampHalf, double per) {
    if (meter.starts() < LEAST_CYCLE_TURNS) {
      return counted(meter.starts(), meter.watchedSeconds(), per, "start");
    }
    double span = meter.lastStartSeconds() - meter.secondStartSeconds();
    double rate = (meter.starts() - 2.0) / span * per;
    // Between the sample before and the one that showed it, each.
    Part first = Part.within("instant of the second start", rate * interval / 2.0 / span);
    Part last = Part.within("instant of the last start", rate * interval / 2.0 / span);
    Part stamps = Part.normal("stamps of both", rate * Math.sqrt(2.0 / 3.0) * stampHalf / span);
    return new Estimate(rate, List.of(first, last, stamps), 0.0);
  }

  /** A part of an interval before the first and one after the last are not seen whole. */
  static Estimate counted(int count, double watched, double per, String what) {
    double one = watched > 0.0 ? per / watched : 0.0;
    return new Estimate(
        count * one,
        List.of(
            Part.within("part of a " + what + " before the first", one / 2.0),
            Part.within("part of a " + what + " after the last", one / 2.0)),
        0.0);
  }

  public double peakToPeakPercent() {
    return peakToPeak.value();
  }

  /**
   * Whether it goes to and fro with a steady period, so far that its controller starts it again and
   * again: a limit cycle, and no chance.
   *
   * @param deadBandPercent the unit's dead band: what swings by less than half of it does not leave
   *     it, and is moved by its signal
   */
  public boolean limitCycle(double deadBandPercent) {
    return regular() && peakToPeakPercent() >= deadBandPercent / 2.0;
  }

  /** Whether it goes to and fro with a steady period, however far. */
  public boolean regular() {
    return turns >= LEAST_CYCLE_TURNS && irregularity.orElse(1.0) <= REGULAR;
  }

  /**
   * Whether it went away without turning round twice, further than noise reaches.
   *
   * @param deadBandPercent the unit's dead band: within it, a correction is its right
   */
  public boolean wandered(double deadBandPercent) {
    double band = Math.max(deadBandPercent, BEYOND_NOISE * thresholdPercent);
    return turns < 2 && peakToPeakPercent() > band;
  }

  /** Whether a cycle was seen with so few samples that its figures are its least. */
  public boolean coarse() {
    return periodSeconds.isPresent()
        && periodSeconds.getAsDouble() < SAMPLES_TO_MEASURE * intervalSeconds;
  }
}
