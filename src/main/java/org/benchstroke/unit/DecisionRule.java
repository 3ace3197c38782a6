package org.benchstroke.unit;

import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;

/**
 * How a measured value is compared with a limit, agreed beforehand (ISO/IEC 17025:2017 7.1.3): a
 * guard band of {@code guardFactor}·U, or of a width that was stated, inside the limit.
 *
 * @param guardFactor r in w = r·U; 1 is ILAC-G8:09/2019 4.2.2 with w = U, 0 is simple acceptance
 * @param width w in the unit of the measure, if a width was agreed instead; above 0
 */
public record DecisionRule(double guardFactor, OptionalDouble width) {
  /** w = U: less than 2.5 % risk of a false accept at the limit (ILAC-G8:09/2019). */
  public static final DecisionRule GUARD_BAND_U = new DecisionRule(1.0);

  /** w = 0: agreed only where the accuracy ratio is 4 or more. */
  public static final DecisionRule SIMPLE_ACCEPTANCE = new DecisionRule(0.0);

  public DecisionRule {
    if (!(guardFactor >= 0.0 && guardFactor <= 3.0)) {
      throw new IllegalArgumentException("a guard factor is 0 to 3, not " + guardFactor);
    }
    if (width.isPresent() && !(width.getAsDouble() > 0.0)) {
      throw new IllegalArgumentException("a guard band's width is above 0");
    }
  }

  /** A guard band of r·U. */
  public DecisionRule(double guardFactor) {
    this(guardFactor, OptionalDouble.empty());
  }

  /** A guard band of a stated width. */
  public static DecisionRule ofWidth(double width) {
    return new DecisionRule(0.0, OptionalDouble.of(width));
  }

  /** w for an expanded uncertainty, in the unit of the measure. */
  public double guard(double half) {
    return width.orElse(guardFactor * half);
  }

  /** Whether there is no guard band at all. */
  public boolean simpleAcceptance() {
    return width.isEmpty() && guardFactor == 0.0;
  }

  /** The rule as a certificate states it. */
  public String text() {
    if (width.isPresent()) {
      return "guard band w = "
          + Numbers.plain(width.getAsDouble())
          + ", as agreed (ILAC-G8:09/2019 4.2.3)";
    }
    if (simpleAcceptance()) {
      return "simple acceptance, w = 0 (ILAC-G8:09/2019 4.2.1)";
    }
    String width = guardFactor == 1.0 ? "U" : Numbers.plain(guardFactor) + " U";
    return "guard band w = " + width + " (ILAC-G8:09/2019 4.2.2, 4.2.3)";
  }
}
