package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How often an input gets a new value, where that is more seldom than it is read: while the
 * position moves, each value stands for about the same number of readings. A single pause is none:
 * it may be a dead spot that holds the last value. One thread.
 */
public final class Conversion {
  /** More readings alike are no conversion of an input that is fit for a position. Own choice. */
  public static final int MOST_READINGS = 10;

  /** Smaller changes may be noise, % of travel. Own choice. */
  private static final double LEAST_PERCENT = 0.2;

  /** One step of a coarse reading stands for several readings, too: a change must be more. */
  private static final double STEPS = 1.5;

  /** So many values in a row, each as long as the others, make a steady rate. Own choice. */
  private static final int STEADY = 5;

  /** How much longer or shorter than the mean one conversion may take, as a part. Own choice. */
  private static final double UNEVEN = 0.3;

  /** Less than this many readings to a value is as it should be. Own choice. */
  private static final double SELDOM = 1.15;

  /** Less than this is no step of a reading, %: such a fine one needs no telling apart. */
  private static final double DUST_PERCENT = 0.01;

  private final List<Integer> readings = new ArrayList<>();
  private double last = Double.NaN;
  private double lastChange;
  private double step;
  private double beganSeconds;
  private int alike;
  private double steadySeconds;
  private int steadyValues;
  private double steadyReadings;

  /** Of a whole trace, s; empty if each reading of a moving position is a new one. */
  public static OptionalDouble of(Trace trace) {
    Conversion conversion = new Conversion();
    for (int i = 0; i < trace.size(); i++) {
      conversion.add(trace.seconds(i), trace.percent(i));
    }
    return conversion.seconds();
  }

  /** Takes a reading, in the order of time. */
  public void add(double seconds, double percent) {
    double change = percent - last;
    alike++;
    if (change == 0.0) {
      return;
    }
    if (!Double.isNaN(change)) {
      step = common(Math.abs(change), step);
      boolean moves = Math.abs(change) >= Math.max(LEAST_PERCENT, STEPS * step);
      boolean on = moves && change * lastChange > 0.0 && alike <= MOST_READINGS;
      if (on) {
        readings.add(alike);
        judge(seconds);
      } else {
        readings.clear();
        beganSeconds = seconds;
      }
      lastChange = moves ? change : 0.0;
    }
    last = percent;
    alike = 0;
  }

  /** Of what all changes so far are multiples, by Euclid's algorithm. */
  private static double common(double change, double step) {
    double a = change;
    double b = step;
    while (b > DUST_PERCENT) {
      double rest = a % b;
      a = b;
      b = Math.min(rest, a - rest);
    }
    return a;
  }

  /** Each run of steady values counts once, as long as it is. */
  private void judge(double seconds) {
    double mean = readings.stream().mapToInt(Integer::intValue).average().orElseThrow();
    // Whole readings differ by one where the rates are no multiples of each other.
    double within = 1.0 + UNEVEN * mean;
    boolean steady = readings.stream().allMatch(r -> Math.abs(r - mean) <= within);
    if (!steady) {
      readings.clear();
      beganSeconds = seconds;
    } else if (readings.size() == STEADY) {
      steadySeconds += seconds - beganSeconds;
      steadyValues += STEADY;
      steadyReadings += mean * STEADY;
      readings.clear();
      beganSeconds = seconds;
    }
  }

  /** The readings that the value of now has stood for, this one included. */
  public int alike() {
    return alike + 1;
  }

  /** From one new value to the next, s; empty if that is as often as it is read, or not known. */
  public OptionalDouble seconds() {
    return steadyValues == 0 || steadyReadings / steadyValues < SELDOM
        ? OptionalDouble.empty()
        : OptionalDouble.of(steadySeconds / steadyValues);
  }
}
