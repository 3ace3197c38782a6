package org.benchstroke.core.model;

import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.SignalRange;

/**
 * The three-position controller. Immutable.
 *
 * @param signal the currents that mean 0 and 100 %; a reversed action has its zero above its full
 * @param startPercent the error above which the motor starts, % of span, 0.02..20
 * @param stopPercent the error at which it stops before the setpoint, % of span, 0..20
 * @param periodSeconds how often it decides, s, 0.001..1 (usual 0.01..0.05)
 * @param filterSeconds time constant of the filter of signal and position, s, 0.001..5
 * @param relaySeconds delay of its relay, s, 0..0.5
 * @param offSeconds the least pause between two starts, s, 0..10
 * @param characteristic how the position that it seeks follows from the signal
 */
public record ControlParameters(
    SignalRange signal,
    double startPercent,
    double stopPercent,
    double periodSeconds,
    double filterSeconds,
    double relaySeconds,
    double offSeconds,
    Characteristic characteristic)
    implements ModelParameters.Part {
  public ControlParameters {
    Require.within("start threshold, %,", startPercent, 0.02, 20);
    Require.within("stop threshold, %,", stopPercent, 0, 20);
    Require.within("controller period, s,", periodSeconds, 0.001, 1);
    Require.within("filter time constant, s,", filterSeconds, 0.001, 5);
    Require.within("relay delay, s,", relaySeconds, 0, 0.5);
    Require.within("off-time, s,", offSeconds, 0, 10);
  }

  static ControlParameters baseline() {
    return new ControlParameters(
        SignalRange.FOUR_TO_TWENTY, 0.5, 0.4, 0.02, 0.03, 0.01, 0.3, Characteristic.linear());
  }

  public ControlParameters withSignal(SignalRange other) {
    return new ControlParameters(
        other,
        startPercent,
        stopPercent,
        periodSeconds,
        filterSeconds,
        relaySeconds,
        offSeconds,
        characteristic);
  }

  public ControlParameters withThresholds(double start, double stop) {
    return new ControlParameters(
        signal,
        start,
        stop,
        periodSeconds,
        filterSeconds,
        relaySeconds,
        offSeconds,
        characteristic);
  }
}
