package org.benchstroke.core.analysis;

/**
 * Whether a unit came to its place in one motion. A second one, on or back, is a corrective pulse:
 * the place of rest then says nothing of where the controller stops. Immutable.
 *
 * @param floorPercent what counts as standing in any noise, %, above 0
 * @param resolutionPercent the step of the reading, %, ≥ 0
 * @param pauseSeconds a pause as long as this parts two motions, s, above 0
 */
public record CleanApproach(double floorPercent, double resolutionPercent, double pauseSeconds) {
  /**
   * Standard deviations of the readings that noise does not span: the difference of two readings
   * has √2 of them, so that this is 5 of its own.
   */
  private static final double SPANNED = 7.0;

  /**
   * How many motions there were.
   *
   * @param approach from the change of the signal to the rest
   * @param rest the readings at rest, whose scatter is the noise
   */
  public int motions(Trace approach, Spread rest) {
    double threshold = Math.max(floorPercent, SPANNED * rest.deviation()) + resolutionPercent;
    MotionMeter meter = new MotionMeter(threshold, pauseSeconds);
    for (int i = 0; i < approach.size(); i++) {
      meter.add(approach.seconds(i), approach.percent(i));
    }
    return meter.starts();
  }
}
