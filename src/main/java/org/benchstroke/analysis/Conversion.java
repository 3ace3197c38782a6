package org.benchstroke.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How often an input gets a new value, where that is more seldom than it is read: while the
 * position moves, each value stands for the same number of readings. A single pause is none: it may
 * be a dead spot that holds the last value. One thread.
 */
public final class Conversion {
  /** More readings alike are no conversion of an input that is fit for a position. Own choice. */
  public static final int MOST_READINGS = 10;

  /** Smaller changes may be noise, % of travel. Own choice. */
  private static final double LEAST_PERCENT = 0.2;

  /** A change must be so many times the smallest: else it may be a step of a coarse reading. */
  private static final double STEPS = 3.0;

  /** So many values in a row, each as long as the others, make a steady rate. Own choice. */
  private static final int STEADY = 5;

  /** Less than this many readings to a value is as it should be. Own choice. */
  private static final double SELDOM = 1.15;

  private final List<Integer> readings = new ArrayList<>();
  private double last = Double.NaN;
  private double lastChange;
  private double quantum = Double.POSITIVE_INFINITY;
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
      quantum = Math.min(quantum, Math.abs(change));
      boolean moves = Math.abs(change) >= Math.max(LEAST_PERCENT, STEPS * quantum);
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

  /** Each run of steady values counts once, as long as it is. */
  private void judge(double seconds) {
    double mean = readings.stream().mapToInt(Integer::intValue).average().orElseThrow();
    // Whole readings differ by one where the rates are no multiples of each other.
    boolean steady = readings.stream().allMatch(r -> Math.abs(r - mean) <= 1.0 + 1e-9);
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
