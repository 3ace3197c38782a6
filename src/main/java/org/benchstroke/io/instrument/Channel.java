package org.benchstroke.io.instrument;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.CertifiedPoints;

/**
 * What a data sheet says of one channel of an instrument.
 *
 * @param unit the unit of its values: "mA", "V", "%" or "deg"
 * @param accuracy the largest error, in that unit
 * @param resolution the step of its display or register, in that unit
 * @param low the smallest value that it can make or show, if stated
 * @param high the largest
 * @param perKelvin what each kelvin outside the range of the accuracy adds to it, if stated
 * @param perYear what each year since the calibration adds to it, if stated
 * @param certified what its calibration certificate says of it, which then counts in place of the
 *     data sheet's accuracy, if stated
 */
public record Channel(
    String unit,
    Accuracy accuracy,
    double resolution,
    OptionalDouble low,
    OptionalDouble high,
    Optional<Accuracy> perKelvin,
    Optional<Accuracy> perYear,
    Optional<CertifiedPoints> certified) {

  /** A channel whose accuracy holds at every temperature and until the next calibration. */
  public Channel(
      String unit, Accuracy accuracy, double resolution, OptionalDouble low, OptionalDouble high) {
    this(
        unit,
        accuracy,
        resolution,
        low,
        high,
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /** The same channel whose step is this. */
  public Channel withResolution(double step) {
    return new Channel(unit, accuracy, step, low, high, perKelvin, perYear, certified);
  }

  /** What must be added to a value to get the true one; 0 without a certificate's figures. */
  public double correctionAt(double value) {
    return certified.map(c -> c.correctionAt(value)).orElse(0.0);
  }

  /**
   * What is doubtful about a value: within half a step of a stated end (or beyond it) the true
   * value may lie further out.
   */
  public Set<Doubt> doubtsOf(double value) {
    double half = resolution / 2.0;
    boolean atLow = low.isPresent() && value <= low.getAsDouble() + half;
    boolean atHigh = high.isPresent() && value >= high.getAsDouble() - half;
    return atLow || atHigh ? Set.of(Doubt.SATURATED) : Doubt.NONE;
  }
}
