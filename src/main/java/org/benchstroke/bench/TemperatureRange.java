package org.benchstroke.bench;

import org.benchstroke.core.quantity.Numbers;

/**
 * Temperatures between two bounds: those of a bench, or those at which an accuracy holds.
 *
 * @param lowCelsius the lowest, °C
 * @param highCelsius the highest, °C, not below the lowest
 */
public record TemperatureRange(double lowCelsius, double highCelsius) {
  public TemperatureRange {
    if (!(lowCelsius <= highCelsius)) {
      throw new IllegalArgumentException(
          "the lowest temperature, "
              + Numbers.plain(lowCelsius)
              + " °C, is above the highest, "
              + Numbers.plain(highCelsius)
              + " °C");
    }
  }

  /** How far the farthest of the other temperatures lies outside of these, K; 0 if none does. */
  public double kelvinOutside(TemperatureRange other) {
    return Math.max(0.0, Math.max(lowCelsius - other.lowCelsius, other.highCelsius - highCelsius));
  }
}
