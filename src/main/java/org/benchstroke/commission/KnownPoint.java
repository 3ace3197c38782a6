package org.benchstroke.commission;

import java.util.List;

/**
 * A known value, and the registers that were read while it stood. Immutable.
 *
 * @param value what the instrument should show, in its channel's unit
 * @param tolerance how far it may really be from that, in the same unit; above 0
 * @param readings the registers around the address, 0 to 65535 each, read one or more times; the
 *     same registers at every point
 */
public record KnownPoint(double value, double tolerance, List<List<Integer>> readings) {
  public KnownPoint {
    readings = readings.stream().map(List::copyOf).toList();
    if (readings.isEmpty() || !(tolerance > 0.0) || !Double.isFinite(value)) {
      throw new IllegalArgumentException("a known point needs a value, a tolerance and readings");
    }
  }
}
