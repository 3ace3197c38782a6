package org.benchstroke.core.model;

/** Watches the input current: outside its thresholds for long enough, the signal is lost. */
final class LossDetector {
  private final LossParameters parameters;
  private final long delaySteps;
  private long outside;
  private boolean lost;

  LossDetector(LossParameters parameters, double stepSeconds) {
    this.parameters = parameters;
    this.delaySteps = Math.round(parameters.delaySeconds() / stepSeconds);
  }

  /** One step; true while the signal is lost. */
  boolean step(double milliamps) {
    double margin = lost ? parameters.returnMilliamps() : 0.0;
    boolean bad =
        milliamps < parameters.lowMilliamps() + margin
            || milliamps > parameters.highMilliamps() - margin;
    outside = bad ? outside + 1 : 0;
    lost = bad && (lost || outside > delaySteps);
    return lost;
  }

  /** Where the unit goes while the signal is lost. */
  int direction(double milliamps) {
    LossParameters.Action action =
        milliamps < parameters.openMilliamps() ? parameters.openLoopAction() : parameters.action();
    return action.direction();
  }
}
