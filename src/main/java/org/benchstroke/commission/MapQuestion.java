package org.benchstroke.commission;

import java.util.List;
import org.benchstroke.io.modbus.Register;

/**
 * What is asked of {@link MapInference}. Immutable.
 *
 * @param inFile the register as the bench file has it; its table is the one that was read
 * @param firstAddress the address of the first register that was read
 * @param unit the channel's unit: "mA", "%" or "deg"
 * @param low the value at 0 % of travel, in that unit
 * @param high the value at 100 %
 * @param points two known points or more
 */
public record MapQuestion(
    Register inFile,
    int firstAddress,
    String unit,
    double low,
    double high,
    List<KnownPoint> points) {
  /** Known values nearer to each other than this share of the range tell too little. */
  private static final double LEAST_SHARE = 0.1;

  public MapQuestion {
    points = List.copyOf(points);
    if (!farEnough(points, low, high)) {
      throw new IllegalArgumentException(
          "the known values must differ by a tenth of the range or more");
    }
    int registers = points.get(0).readings().get(0).size();
    for (KnownPoint point : points) {
      if (point.readings().stream().anyMatch(reading -> reading.size() != registers)) {
        throw new IllegalArgumentException("every reading must be of the same registers");
      }
    }
  }

  private static boolean farEnough(List<KnownPoint> points, double low, double high) {
    var values = points.stream().mapToDouble(KnownPoint::value).summaryStatistics();
    return points.size() >= 2
        && values.getMax() - values.getMin() >= LEAST_SHARE * Math.abs(high - low);
  }

  /** How many registers were read. */
  int registers() {
    return points.get(0).readings().get(0).size();
  }

  /** The width of the range. */
  double span() {
    return Math.abs(high - low);
  }
}
