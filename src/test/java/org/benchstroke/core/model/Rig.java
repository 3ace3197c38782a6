package org.benchstroke.core.model;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;

/** Drives a model as a bench would, without instruments. */
final class Rig {
  private static final int SAMPLES = 20;

  final UnitModel unit;
  private final double speed;
  private double setpoint;
  private long nanos;

  Rig(ModelParameters parameters, long seed) {
    this.unit = new UnitModel(parameters, seed);
    this.speed = 100.0 / parameters.motor().strokeSeconds();
    this.setpoint = parameters.mechanics().startPercent();
    unit.motorPower(true);
    command(setpoint);
  }

  void command(double percent) {
    unit.command(SignalRange.FOUR_TO_TWENTY.currentAt(Position.ofPercent(percent)).milliamps());
    setpoint = percent;
  }

  void run(double seconds) {
    nanos += Math.round(seconds * 1e9);
    unit.advanceTo(nanos);
  }

  /** Goes to a setpoint and stays until it has long been at rest. */
  void rest(double percent) {
    double change = Math.abs(percent - setpoint);
    command(percent);
    run(1.3 * change / speed + 3.0);
  }

  double feedbackPercent() {
    return (unit.feedbackMilliamps() - 4.0) / 16.0 * 100.0;
  }

  /** The mean of the last samples at rest, by the feedback. */
  double meanFeedback() {
    double sum = 0.0;
    for (int i = 0; i < SAMPLES; i++) {
      run(0.1);
      sum += feedbackPercent();
    }
    return sum / SAMPLES;
  }

  /**
   * Readings at points from the first up to the last and back. The end points have one approach
   * only: beyond them the end switches would end it.
   */
  List<Point> travel(double... points) {
    int last = points.length - 1;
    double[] up = new double[points.length];
    double[] upStem = new double[points.length];
    for (int i = 0; i <= last; i++) {
      rest(points[i]);
      up[i] = meanFeedback();
      upStem[i] = unit.truth().stemPercent();
    }
    List<Point> read = new ArrayList<>();
    read.add(new Point(points[last], up[last], up[last], upStem[last], upStem[last]));
    for (int i = last - 1; i >= 0; i--) {
      rest(points[i]);
      double down = meanFeedback();
      read.add(new Point(points[i], up[i], down, upStem[i], unit.truth().stemPercent()));
    }
    return read;
  }

  record Point(double setpoint, double up, double down, double upStem, double downStem) {
    double worst() {
      return Math.max(Math.abs(up - setpoint), Math.abs(down - setpoint));
    }

    double hysteresis() {
      return down - up;
    }

    double stemHysteresis() {
      return downStem - upStem;
    }
  }

  /** Steps until the unit moves; the setpoint's whole change less half a step. */
  double staircase(double step) {
    double from = meanFeedback();
    double total = 0.0;
    while (Math.abs(feedbackPercent() - from) < 0.1 && Math.abs(total) < 10.0) {
      total += step;
      command(setpoint + step);
      run(1.0);
    }
    return Math.abs(total) - Math.abs(step) / 2.0;
  }
}
