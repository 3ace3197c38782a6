package org.benchstroke.core.model;

import org.benchstroke.core.quantity.SignalRange;

/**
 * What makes the feedback current of the sensor's position. Immutable.
 *
 * @param range the currents for 0 and 100 %
 * @param lagSeconds time constant of its output, s, 0.001..10 (usual 0.05..0.5)
 * @param bits resolution over its whole output range, 6..24 (usual 10..16)
 * @param lowestMilliamps the smallest current that it makes, mA, 0..{@code highestMilliamps}
 * @param highestMilliamps the largest, mA, at most 25
 * @param zeroPercent what it shows too much at 0 %, % of span, ±20
 * @param spanPercent what its span is too large by, %, ±20
 * @param bow what it shows too much between its ends: a linkage of its own, or a loaded track
 */
public record TransmitterParameters(
    SignalRange range,
    double lagSeconds,
    int bits,
    double lowestMilliamps,
    double highestMilliamps,
    double zeroPercent,
    double spanPercent,
    Bow bow)
    implements ModelParameters.Part {
  public TransmitterParameters {
    Require.within("transmitter lag, s,", lagSeconds, 0.001, 10);
    Require.within("transmitter bits", bits, 6, 24);
    Require.within("lowest feedback, mA,", lowestMilliamps, 0, 25);
    Require.within("highest feedback, mA,", highestMilliamps, 0, 25);
    Require.below("lowest feedback", lowestMilliamps, "highest feedback", highestMilliamps);
    Require.within("transmitter zero, %,", zeroPercent, -20, 20);
    Require.within("transmitter span, %,", spanPercent, -20, 20);
  }

  /** One that is straight. */
  public TransmitterParameters(
      SignalRange range,
      double lagSeconds,
      int bits,
      double lowestMilliamps,
      double highestMilliamps,
      double zeroPercent,
      double spanPercent) {
    this(
        range,
        lagSeconds,
        bits,
        lowestMilliamps,
        highestMilliamps,
        zeroPercent,
        spanPercent,
        Bow.NONE);
  }

  static TransmitterParameters baseline() {
    return new TransmitterParameters(SignalRange.FOUR_TO_TWENTY, 0.05, 14, 3.8, 20.5, 0.0, 0.0);
  }

  public TransmitterParameters withErrors(double zero, double span) {
    return new TransmitterParameters(
        range, lagSeconds, bits, lowestMilliamps, highestMilliamps, zero, span, bow);
  }
}
