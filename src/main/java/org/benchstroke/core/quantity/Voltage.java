package org.benchstroke.core.quantity;

/**
 * A voltage, such as that of the supply at the motor's terminals.
 *
 * <p>Unit: volt; of an alternating voltage its effective value. Any finite value. Immutable, safe
 * for any thread.
 *
 * @param volts the voltage in volts
 */
public record Voltage(double volts) {
  public Voltage {
    if (!Double.isFinite(volts)) {
      throw new IllegalArgumentException("a voltage must be finite, not " + volts + " V");
    }
  }

  public static Voltage ofVolts(double volts) {
    return new Voltage(volts);
  }

  @Override
  public String toString() {
    return Numbers.fixed(volts, 2) + " V";
  }
}
