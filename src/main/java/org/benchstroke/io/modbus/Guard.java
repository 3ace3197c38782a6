package org.benchstroke.io.modbus;

import java.util.List;
import java.util.Optional;

/**
 * What a reading of a register must keep to, so that a register that holds no measurement never
 * passes for one. Immutable.
 *
 * @param noValue numbers before scale and offset by which the device says that it has no value; NaN
 *     is allowed
 * @param plausible what the value can be in its unit; a value outside was read wrongly
 * @param counter a register that changes as long as the value is alive
 */
public record Guard(List<Double> noValue, Optional<Range> plausible, Optional<Counter> counter) {
  /** No guard. */
  public static final Guard NONE = new Guard(List.of(), Optional.empty(), Optional.empty());

  /**
   * From low to high, both included.
   *
   * @param low in the value's unit
   * @param high above low
   */
  public record Range(double low, double high) {
    boolean holds(double value) {
      return value >= low && value <= high;
    }
  }

  /**
   * A counter.
   *
   * @param register where it stands
   * @param seconds unchanged for longer than this, the value is frozen, s of bench time
   */
  public record Counter(Register register, double seconds) {}

  public Guard {
    noValue = List.copyOf(noValue);
  }

  /** Whether the number is one that means "no value"; in hexadecimal -32768 may be 0x8000. */
  boolean meansNoValue(double number, Register.Type type) {
    double unsigned =
        switch (type) {
          case I16 -> number < 0 ? number + 0x1p16 : number;
          case I32 -> number < 0 ? number + 0x1p32 : number;
          default -> number;
        };
    for (double each : noValue) {
      if (same(each, number, type) || same(each, unsigned, type)) {
        return true;
      }
    }
    return false;
  }

  private static boolean same(double sentinel, double number, Register.Type type) {
    double held = type == Register.Type.F32 ? (double) (float) sentinel : sentinel;
    return Double.compare(held, number) == 0 || held == number;
  }
}
