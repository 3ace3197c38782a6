package org.benchstroke.core.model;

import net.jafama.StrictFastMath;

/** The signal loop: I = min(I_cmd, V_c/R), and at the unit's input ground offset, hum and noise. */
final class InputLoop {
  private final InputParameters parameters;
  private final double most;
  private final Noise noise;
  private double loop;

  InputLoop(InputParameters parameters, Noise noise) {
    this.parameters = parameters;
    this.noise = noise;
    this.most = parameters.complianceVolts() / parameters.loopOhms() * 1000.0;
  }

  void command(double milliamps) {
    loop = Math.min(milliamps, most);
  }

  /** What flows, mA: a meter in the loop sees it. */
  double loopMilliamps() {
    return loop;
  }

  /** What the unit's input sees, mA. */
  double inputMilliamps(double seconds, boolean motorOn) {
    double input = loop + parameters.groundMilliamps();
    if (motorOn) {
      input += parameters.groundMotorMilliamps();
    }
    if (parameters.humMilliamps() > 0.0) {
      double phase = 2.0 * Math.PI * parameters.humHertz() * seconds;
      input += parameters.humMilliamps() * StrictFastMath.sin(phase);
    }
    if (parameters.noiseMilliamps() > 0.0) {
      input += parameters.noiseMilliamps() * noise.normal();
    }
    return input;
  }
}
