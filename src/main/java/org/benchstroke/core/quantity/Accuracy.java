package org.benchstroke.core.quantity;

/**
 * The accuracy of an instrument as its data sheet prints it: ±(a % of reading + b % of range + c).
 *
 * <p>The half-width is the bound of a rectangular distribution (JCGM 100:2008 4.3.7). Immutable,
 * safe for any thread.
 *
 * @param percentOfReading the share of the reading, in %
 * @param percentOfRange the share of the range, in %
 * @param range the width of the range, in the channel's unit
 * @param absolute the constant part, in the channel's unit
 */
public record Accuracy(
    double percentOfReading, double percentOfRange, double range, double absolute) {
  public Accuracy {
    requireNotNegative(percentOfReading, "share of reading");
    requireNotNegative(percentOfRange, "share of range");
    requireNotNegative(range, "range");
    requireNotNegative(absolute, "constant part");
  }

  /** The largest error that the data sheet allows at this reading, in the channel's unit. */
  public double halfWidthAt(double reading) {
    return percentOfReading / 100.0 * Math.abs(reading) + percentOfRange / 100.0 * range + absolute;
  }

  private static void requireNotNegative(double value, String what) {
    if (!(value >= 0.0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "the " + what + " must be 0 or more, not " + Numbers.plain(value));
    }
  }
}
