package org.benchstroke.io.scpi;

import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.io.instrument.Channel;

/** Channels for tests; the accuracy plays no part in a driver. */
final class Channels {
  private Channels() {}

  static Channel milliamps(double resolution, double low, double high) {
    return new Channel(
        "mA",
        new Accuracy(0.02, 0.0, 0.0, 0.002),
        resolution,
        OptionalDouble.of(low),
        OptionalDouble.of(high));
  }
}
