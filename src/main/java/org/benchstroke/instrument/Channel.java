package org.benchstroke.instrument;

import java.util.OptionalDouble;
import org.benchstroke.quantity.Accuracy;

/**
 * What a data sheet says of one channel of an instrument.
 *
 * @param unit the unit of its values: "mA", "V", "%" or "deg"
 * @param accuracy the largest error, in that unit
 * @param resolution the step of its display or register, in that unit
 * @param low the smallest value that it can make or show, if stated
 * @param high the largest
 */
public record Channel(
    String unit, Accuracy accuracy, double resolution, OptionalDouble low, OptionalDouble high) {

  /**
   * What can be said of a value: within half a step of a stated end (or beyond it) the true value
   * may lie further out.
   */
  public Quality qualityAt(double value) {
    double half = resolution / 2.0;
    boolean atLow = low.isPresent() && value <= low.getAsDouble() + half;
    boolean atHigh = high.isPresent() && value >= high.getAsDouble() - half;
    return atLow || atHigh ? Quality.SATURATED : Quality.GOOD;
  }
}
