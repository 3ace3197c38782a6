package org.benchstroke.core.model;

/**
 * The unit's own calibration: it drives closed until its sensor stands, then open until it stands,
 * and takes what lies a little inside for its span. Whether a switch or a stop ends the travel, it
 * can't tell. The project's own routine; that it backs off is common practice, no source.
 */
final class AutoCalibration {
  /** It stands if its sensor stays within this, % of span, for so long, s. */
  private static final double STANDS_PERCENT = 0.2;

  private static final double STANDS_SECONDS = 1.0;

  /** Less than this between the limits is no travel, % of span. */
  private static final double LEAST_SPAN_PERCENT = 10.0;

  private final double backOffPercent;
  private final double stepSeconds;
  private int direction;
  private double reference;
  private double standing;
  private double sum;
  private long count;
  private double closed;
  private boolean succeeded;

  AutoCalibration(double backOffPercent, double stepSeconds) {
    this.backOffPercent = backOffPercent;
    this.stepSeconds = stepSeconds;
  }

  void start() {
    succeeded = false;
    seek(-1);
  }

  /** Breaks it off; the former span is kept. */
  void stop() {
    direction = 0;
  }

  private void seek(int towards) {
    direction = towards;
    standing = 0.0;
    sum = 0.0;
    count = 0;
    reference = Double.NEGATIVE_INFINITY;
  }

  boolean running() {
    return direction != 0;
  }

  boolean succeeded() {
    return succeeded;
  }

  /** Where it drives: −1 closed, 1 open, 0 when it is not running. */
  int direction() {
    return direction;
  }

  /**
   * One step while it runs.
   *
   * @param relay where the relay drives now
   * @param sensor reads and takes over the span
   */
  void step(int relay, double rawPercent, Sensor sensor) {
    if (relay != direction) {
      return;
    }
    if (Math.abs(rawPercent - reference) > STANDS_PERCENT) {
      reference = rawPercent;
      standing = 0.0;
      sum = 0.0;
      count = 0;
    }
    standing += stepSeconds;
    if (standing > STANDS_SECONDS / 2.0) {
      sum += rawPercent;
      count++;
    }
    if (standing >= STANDS_SECONDS) {
      atLimit(sum / count, sensor);
    }
  }

  private void atLimit(double mean, Sensor sensor) {
    if (direction < 0) {
      closed = mean;
      seek(1);
      return;
    }
    direction = 0;
    if (mean - closed >= LEAST_SPAN_PERCENT) {
      sensor.calibrate(closed + backOffPercent, mean - backOffPercent);
      succeeded = true;
    }
  }
}
