package org.benchstroke.core.analysis;

/**
 * Counts the starts of a unit and the time that it moves, sample by sample, in constant memory. A
 * unit starts when its position leaves the place where it stood by more than a threshold, and again
 * whenever it turns round; it stands when its position has not moved by more than the threshold for
 * one dwell. What is shorter than a sample period is not seen. One thread.
 */
public final class MotionMeter {
  /** The mean of so many readings is the place where it stands. */
  private static final int STANDING = 10;

  private final double thresholdPercent;
  private final double dwellSeconds;
  private double anchorPercent = Double.NaN;
  private double anchorSeconds;
  private double firstSeconds = Double.NaN;
  private double lastSeconds;
  private double startedSeconds;
  private double movedSeconds;
  private double secondStartSeconds = Double.NaN;
  private double lastStartSeconds = Double.NaN;
  private int standing;
  private int direction;
  private int starts;

  /**
   * A meter that has seen nothing.
   *
   * @param thresholdPercent what noise and resolution can't reach, % of travel, above 0
   * @param dwellSeconds a pause shorter than this is part of a motion, s, above 0
   */
  public MotionMeter(double thresholdPercent, double dwellSeconds) {
    if (!(thresholdPercent > 0.0 && dwellSeconds > 0.0)) {
      throw new IllegalArgumentException("threshold and dwell of a motion must be above 0");
    }
    this.thresholdPercent = thresholdPercent;
    this.dwellSeconds = dwellSeconds;
  }

  /**
   * Takes a sample.
   *
   * @param seconds its stamp, s, not before the one before
   * @param percent the position, % of travel
   */
  public void add(double seconds, double percent) {
    if (Double.isNaN(anchorPercent)) {
      anchorPercent = percent;
      anchorSeconds = seconds;
      firstSeconds = seconds;
      lastSeconds = seconds;
    }
    double change = percent - anchorPercent;
    if (Math.abs(change) > thresholdPercent) {
      moved(change > 0.0 ? 1 : -1);
      anchorPercent = percent;
      anchorSeconds = seconds;
    } else if (direction != 0 && seconds - anchorSeconds >= dwellSeconds) {
      movedSeconds += anchorSeconds - startedSeconds;
      direction = 0;
      standing = 0;
    }
    if (direction == 0 && standing < STANDING) {
      // It went on a little since: what noise adds to that is no start.
      standing++;
      anchorPercent += (percent - anchorPercent) / standing;
    }
    lastSeconds = seconds;
  }

  private void moved(int towards) {
    if (direction == 0) {
      startedSeconds = lastSeconds;
    }
    if (direction != towards) {
      starts++;
      direction = towards;
      lastStartSeconds = lastSeconds;
      secondStartSeconds = starts == 2 ? lastSeconds : secondStartSeconds;
    }
  }

  /** Starts and turns so far. */
  public int starts() {
    return starts;
  }

  /** The last sample before the second start, s; no number before there was one. */
  public double secondStartSeconds() {
    return secondStartSeconds;
  }

  /** The last sample before the latest start, s; no number before there was one. */
  public double lastStartSeconds() {
    return lastStartSeconds;
  }

  /** How long it was watched, s. */
  public double watchedSeconds() {
    return Double.isNaN(firstSeconds) ? 0.0 : lastSeconds - firstSeconds;
  }

  /** How long it moved, s. */
  public double movedSeconds() {
    return movedSeconds + (direction == 0 ? 0.0 : anchorSeconds - startedSeconds);
  }

  /** Time in motion over time watched, 0..1; 0 before there are two samples. */
  public double onRatio() {
    double watched = watchedSeconds();
    return watched > 0.0 ? movedSeconds() / watched : 0.0;
  }

  /** Starts per hour at the rate of the time watched; 0 before there are two samples. */
  public double startsPerHour() {
    double watched = watchedSeconds();
    return watched > 0.0 ? starts / watched * 3600.0 : 0.0;
  }
}
