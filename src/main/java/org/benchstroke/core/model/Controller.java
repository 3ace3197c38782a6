package org.benchstroke.core.model;

/**
 * The three-position controller: every period it compares the error with its start and stop
 * thresholds. Signal and position pass the same filter, so the error may be filtered in their
 * place; the filter's lag while moving is part of the coast.
 */
final class Controller {
  private final ControlParameters parameters;
  private final double zeroMilliamps;
  private final double percentPerMilliamp;
  private final double share;
  private final long periodSteps;
  private final long relaySteps;
  private final long offSteps;
  private double error;
  private boolean primed;
  private int wanted;
  private int relay;
  private long relayWait;
  private long offFor;

  Controller(ControlParameters parameters, double stepSeconds) {
    this.parameters = parameters;
    this.zeroMilliamps = parameters.signal().zero().milliamps();
    this.percentPerMilliamp = 100.0 / parameters.signal().spanMilliamps();
    this.share = 1.0 - StrictMath.exp(-stepSeconds / parameters.filterSeconds());
    this.periodSteps = Math.max(1, Math.round(parameters.periodSeconds() / stepSeconds));
    this.relaySteps = Math.round(parameters.relaySeconds() / stepSeconds);
    this.offSteps = Math.round(parameters.offSeconds() / stepSeconds);
    this.offFor = offSteps;
  }

  /** How many steps there are from one look at its inputs to the next. */
  long periodSteps() {
    return periodSteps;
  }

  /** Lets signal and position pass the filter. */
  void filter(double milliamps, double sensedPercent) {
    double signal = (milliamps - zeroMilliamps) * percentPerMilliamp;
    double now = parameters.characteristic().travelAt(signal) - sensedPercent;
    error = primed ? error + (now - error) * share : now;
    primed = true;
  }

  /** Decides by the error. */
  void decide() {
    if (wanted != 0) {
      if (error * wanted <= parameters.stopPercent()) {
        want(0);
      }
    } else if (Math.abs(error) > parameters.startPercent()) {
      want(error > 0 ? 1 : -1);
    }
  }

  /** Goes where the loss of the signal sends it. */
  void override(int direction) {
    want(wanted != 0 && direction != wanted ? 0 : direction);
  }

  private void want(int direction) {
    if (wanted == 0 && direction != 0 && offFor < offSteps) {
      return;
    }
    wanted = direction;
  }

  /** The direction that the relay switches now. */
  int relay() {
    return relay;
  }

  /** One step of the relay; the direction that it now switches. */
  int step() {
    offFor = relay == 0 ? offFor + 1 : 0;
    if (wanted == relay) {
      relayWait = 0;
    } else if (++relayWait > relaySteps) {
      relay = wanted;
      relayWait = 0;
    }
    return relay;
  }
}
