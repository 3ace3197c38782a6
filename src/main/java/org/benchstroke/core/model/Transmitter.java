package org.benchstroke.core.model;

/** Makes the feedback current: errors, lag, clip, resolution. */
final class Transmitter {
  private final TransmitterParameters parameters;
  private final double zeroMilliamps;
  private final double milliampsPerPercent;
  private final double gain;
  private final Bow bow;
  private final double share;
  private final double quantum;
  private double zeroPercent;
  private double percent;

  Transmitter(TransmitterParameters parameters, double stepSeconds, double sensedPercent) {
    this.parameters = parameters;
    this.zeroMilliamps = parameters.range().zero().milliamps();
    this.milliampsPerPercent = parameters.range().spanMilliamps() / 100.0;
    this.gain = 1.0 + parameters.spanPercent() / 100.0;
    this.bow = parameters.bow();
    this.share = 1.0 - StrictMath.exp(-stepSeconds / parameters.lagSeconds());
    double range = parameters.highestMilliamps() - parameters.lowestMilliamps();
    this.quantum = range / ((1 << parameters.bits()) - 1);
    this.zeroPercent = parameters.zeroPercent();
    this.percent = withErrors(sensedPercent);
  }

  /** What it shows too much for the time being, beside its other errors, % of span. */
  void drift(double drifted) {
    zeroPercent = parameters.zeroPercent() + drifted;
  }

  void step(double sensedPercent) {
    percent += (withErrors(sensedPercent) - percent) * share;
  }

  /** What it shows for a sensed position, % of span, before lag, clip and resolution. */
  double withErrors(double sensedPercent) {
    return zeroPercent + sensedPercent * gain + bow.at(sensedPercent / 100.0);
  }

  double milliamps() {
    double low = parameters.lowestMilliamps();
    double ideal = zeroMilliamps + percent * milliampsPerPercent;
    double clipped = Math.max(low, Math.min(parameters.highestMilliamps(), ideal));
    return low + Math.rint((clipped - low) / quantum) * quantum;
  }
}
