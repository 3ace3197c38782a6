package org.benchstroke.core.analysis;

/**
 * How a position answered a step of its setpoint. Times run from the step; shares are of the change
 * from the mean position before the step to the mean position at its end. A figure that the trace
 * doesn't bear is absent with its reason. Definitions: ISA-75.25.01 and IEC 60534-9 (dead time,
 * T63, T86), IEV 351 (rise and settling time), all from memory; T98 is a name of our own in their
 * manner. Immutable.
 *
 * @param start the mean position before the step, %
 * @param finish the mean position at rest after it, %
 * @param deadTime until the position had left its start by {@code thresholdPercent}, s
 * @param firstMotion until the first sample that showed it, s
 * @param t63 until 63.2 % of the change, s
 * @param t86 until 86.5 % of the change, s
 * @param t98 until 98 % of the change, s
 * @param rise from 10 % to 90 % of the change, s
 * @param timeRatio (T63 − dead time) ÷ (T86 − dead time): 0.73 for constant speed, 0.50 for first
 *     order
 * @param overshoot the furthest beyond the end, % of the change
 * @param overshootOfTravel the same, % of travel
 * @param settling until it came within the band around its end for good, s
 * @param steadyStateError the end less the setpoint, with its sign, %
 * @param slew the largest speed over a window of {@code slewWindowSeconds}, %/s, ≥ 0
 * @param thresholdPercent what counts as motion, %
 * @param slewWindowSeconds a third of the rise time, at least four samples; 0 without a slew
 */
public record StepResponse(
    Figure start,
    Figure finish,
    Figure deadTime,
    Figure firstMotion,
    Figure t63,
    Figure t86,
    Figure t98,
    Figure rise,
    Figure timeRatio,
    Figure overshoot,
    Figure overshootOfTravel,
    Figure settling,
    Figure steadyStateError,
    Figure slew,
    double thresholdPercent,
    double slewWindowSeconds) {

  /**
   * Measures a response.
   *
   * @param trace from some samples before the step until well after it came to rest
   * @param step the step
   */
  public static StepResponse of(Trace trace, Step step) {
    return StepAnalysis.of(trace, step);
  }

  /** Every figure absent for one reason, but for where it stood. */
  static StepResponse none(
      String reason, Figure start, Figure finish, Figure steadyStateError, double threshold) {
    Figure no = Figure.absent(reason);
    return new StepResponse(
        start,
        finish,
        no,
        no,
        no,
        no,
        no,
        no,
        no,
        no,
        no,
        no,
        steadyStateError,
        no,
        threshold,
        0.0);
  }
}
