package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.benchstroke.core.analysis.Estimate.Part;
import org.benchstroke.core.quantity.Numbers;

/**
 * What a position does while the setpoint is held: whether it goes back and forth. A turn is a
 * change of direction of more than a threshold that noise can't reach; the turning points between
 * are the extremes. Immutable.
 *
 * @param turns changes of direction
 * @param peakToPeak the distance of the upper turning points from the lower ones, each in the mean,
 *     %; without two of them the range of all positions
 * @param periodSeconds the mean time of a whole cycle, s; empty with fewer than four turning
 *     points, or where noise hides when they were
 * @param irregularity the standard deviation of the half periods over their mean; empty with fewer
 *     than four turning points, or where noise hides when they were
 * @param turnsPerMinute turning points a minute, two for each cycle between the first and the last
 *     passage through the middle the same way; with fewer than four, or where noise hides when they
 *     were, their number over the time
 * @param starts starts of motion, see {@link MotionMeter}
 * @param startsPerHour starts an hour, of whole cycles; without one from the second to the last of
 *     them, with fewer than four their number over the time
 * @param seconds how long it was watched, s
 * @param thresholdPercent what counted as motion, %
 * @param intervalSeconds the mean time between two samples, or two new values of the input, s
 * @param insufficient why the sampling can't tell rest from a cycle, in words; empty if it can
 * @param hidden why noise hides how often it turned or started, in words; empty if it doesn't
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
    Optional<String> insufficient,
    Optional<String> hidden) {
  /** How often the noise of a hold may look like a reversal, there and back. Our own choice. */
  private static final double FALSE_PROBABILITY = 1.0e-3;

  private static final double STEPS = 2.0;

  /** The range of a thousand readings exceeds the distance of two. */
  private static final double BEYOND_NOISE = 1.5;

  /** With fewer samples a cycle it may show no more than a part of itself. */
  private static final double SAMPLES_TO_SEE = 4.0;

  /** With fewer its extremes fall between samples. Common practice, no source. */
  private static final double SAMPLES_TO_MEASURE = 10.0;

  /** The part of a bound that U holds: so divided it is held in full. */
  private static final double HELD = 0.95;

  private static final double REGULAR = 0.35;
  private static final int LEAST_CYCLE_TURNS = 4;

  /** Measures a hold of which each sample is a new reading. */
  public static Hunting of(
      Trace trace,
      PositionNoise noise,
      double leastPercent,
      double fastestCycleSeconds,
      double percentPerSecond) {
    return of(trace, noise, leastPercent, fastestCycleSeconds, percentPerSecond, 0.0);
  }

  /**
   * Measures a hold.
   *
   * @param trace the position while the setpoint was held; at least two samples
   * @param noise of the position at rest
   * @param leastPercent motion of less than this does not matter, %, above 0
   * @param fastestCycleSeconds no cycle of the unit can be quicker, s, above 0
   * @param percentPerSecond how fast the unit goes at its full speed, above 0
   * @param renewalSeconds how often the position input gets a new value, however often it is read,
   *     s; 0 if with each sample
   */
  public static Hunting of(
      Trace trace,
      PositionNoise noise,
      double leastPercent,
      double fastestCycleSeconds,
      double percentPerSecond,
      double renewalSeconds) {
    double threshold =
        Math.max(
            leastPercent,
            Math.max(
                reach(trace.size()) * noise.deviationPercent(), STEPS * noise.resolutionPercent()));
    List<Integer> turning = turningPoints(trace, threshold);
    double interval = (trace.seconds(trace.size() - 1) - trace.seconds(0)) / (trace.size() - 1.0);
    Turns turns = new Turns(trace, turning, noise, percentPerSecond);
    List<Double> instants = turns.instants();
    List<Turns.Crossing> timed = apart(instants, interval) ? turns.crossings() : List.of();
    // The end of a coast creeps; the pause before the next start is half a quickest cycle or more.
    double dwell = Math.max(1.5 * interval, fastestCycleSeconds / 4.0);
    MotionMeter meter = new MotionMeter(threshold, dwell);
    int[] startsBefore = new int[trace.size()];
    for (int i = 0; i < trace.size(); i++) {
      meter.add(trace.seconds(i), trace.percent(i));
      startsBefore[i] = meter.starts();
    }
    double stampHalf = trace.stampHalfSeconds(0);
    double renewed = Math.max(interval, renewalSeconds);
    UnseenTurns unseen =
        new UnseenTurns(trace, noise, threshold, turns.size(), turns.swing(), timed);
    return new Hunting(
        turning.size(),
        turns.distance(),
        period(timed),
        irregularity(timed),
        wholePeriods(timed) == 0
            ? counted(turns.size(), meter.watchedSeconds(), 60.0, "reversal")
            : inWholePeriods(timed, 2 * wholePeriods(timed), unseen.passedOver(), 60.0, stampHalf),
        meter.starts(),
        wholePeriods(timed) == 0
            ? starts(meter, interval, stampHalf, 3600.0)
            : inWholePeriods(
                timed,
                startsIn(trace, timed, startsBefore),
                unseen.passedOver(),
                3600.0,
                stampHalf),
        meter.watchedSeconds(),
        threshold,
        renewed,
        insufficient(renewed, renewed > interval, fastestCycleSeconds),
        unseen.hidden(leastPercent));
  }

  /**
   * How far noise goes between two of so many readings, in deviations: from the extreme that is met
   * everywhere, once in the readings, to one that is met hardly ever (quantiles of the normal
   * distribution). The more readings, the further.
   */
  private static double reach(int readings) {
    NormalDistribution normal = new NormalDistribution(null, 0.0, 1.0);
    double usual = normal.inverseCumulativeProbability(1.0 / readings);
    double rare = normal.inverseCumulativeProbability(FALSE_PROBABILITY / (2.0 * readings));
    return -Math.min(0.0, usual) - rare;
  }

  private static Optional<String> insufficient(double interval, boolean renewed, double fastest) {
    if (interval * SAMPLES_TO_SEE <= fastest) {
      return Optional.empty();
    }
    return Optional.of(
        "sampling insufficient: "
            + (renewed ? "the input renews only every " : "a sample every ")
            + Numbers.significant(interval, 2)
            + (renewed ? " s and" : " s")
            + " can't show a cycle of "
            + Numbers.significant(fastest, 2)
            + " s, which the unit could make; "
            + (renewed ? "take one that renews at least every " : "read at least every ")
            + Numbers.shorter(fastest / SAMPLES_TO_SEE, interval)
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
  private static boolean apart(List<Double> instants, double interval) {
    if (instants.size() < 2) {
      return true;
    }
    double span = instants.get(instants.size() - 1) - instants.get(0);
    // Neighbours are a sample apart at least.
    return span > (instants.size() - 1.0) * interval / 2.0;
  }

  /**
   * From one crossing to the next but one it goes the same way: that is a period, evenly or not.
   */
  private static int wholePeriods(List<Turns.Crossing> crossings) {
    return Math.max(0, crossings.size() - 1) / 2;
  }

  private static double span(List<Turns.Crossing> crossings) {
    return crossings.get(2 * wholePeriods(crossings)).seconds() - crossings.get(0).seconds();
  }

  private static OptionalDouble period(List<Turns.Crossing> crossings) {
    int periods = wholePeriods(crossings);
    return periods == 0 ? OptionalDouble.empty() : OptionalDouble.of(span(crossings) / periods);
  }

  /** By the ways one way and the ways back apart: a load makes one of them longer, each time. */
  private static OptionalDouble irregularity(List<Turns.Crossing> crossings) {
    int halves = crossings.size() - 1;
    if (halves < LEAST_CYCLE_TURNS - 2) {
      return OptionalDouble.empty();
    }
    boolean apart = halves >= LEAST_CYCLE_TURNS;
    List<Double> ways = new ArrayList<>();
    double[] mean = new double[2];
    for (int i = 0; i < halves; i++) {
      double half = crossings.get(i + 1).seconds() - crossings.get(i).seconds();
      ways.add(half);
      mean[i % 2] += half / (i % 2 == 0 ? (halves + 1) / 2 : halves / 2);
    }
    double all = Spread.of(ways).mean();
    double squares = 0.0;
    for (int i = 0; i < halves; i++) {
      double away = ways.get(i) - (apart ? mean[i % 2] : all);
      squares += away * away;
    }
    return OptionalDouble.of(Math.sqrt(squares / (halves - (apart ? 2.0 : 1.0))) / all);
  }

  /**
   * Starts from the first passage to the last one the same way: the part of a cycle is left out.
   */
  private static int startsIn(Trace trace, List<Turns.Crossing> crossings, int[] startsBefore) {
    int first = trace.indexAt(crossings.get(0).seconds());
    int last = trace.indexAt(crossings.get(2 * wholePeriods(crossings)).seconds());
    return startsBefore[Math.min(last, startsBefore.length - 1)] - startsBefore[first];
  }

  /**
   * A rate over whole cycles.
   *
   * @param count what happened in them
   * @param unseen how many more may have
   * @param per the seconds that it is stated for
   */
  private static Estimate inWholePeriods(
      List<Turns.Crossing> crossings, int count, int unseen, double per, double stampHalf) {
    double span = span(crossings);
    double rate = count / span * per;
    double first = crossings.get(0).standard();
    double last = crossings.get(2 * wholePeriods(crossings)).standard();
    return new Estimate(
        rate,
        List.of(
            Part.normal("instant of the first", rate * first / span),
            Part.normal("instant of the last", rate * last / span),
            Part.normal("stamps of both", rate * Math.sqrt(2.0 / 3.0) * stampHalf / span),
            Part.within("turns that noise hides", unseen / HELD / span * per)),
        0.0);
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
