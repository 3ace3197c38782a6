package org.benchstroke.bench;

import java.util.List;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.unit.UnitType;

/**
 * How far the setpoints of a record are known: one that was read from a display or a file is known
 * to half of its last digit only. Immutable.
 *
 * @param half half of the last digit, in the unit; 0 where setpoints stand for themselves
 * @param unit "%" of travel or "mA"
 */
public record SetpointDigits(double half, String unit) {
  /** Setpoints that were commanded. */
  public static final SetpointDigits EXACT = new SetpointDigits(0.0, "%");

  /** ± % of travel at a setpoint. */
  public double halfPercent(UnitType type, double setpointPercent) {
    return half * slope(type, setpointPercent);
  }

  /** As an input of a budget: a display's digit is ± half of it (JCGM 100:2008 F.2.2.1). */
  List<Component> components(UnitType type, double setpointPercent) {
    return half == 0.0
        ? List.of()
        : List.of(
            Component.rectangular(
                    "setpoint, half its last digit", half, slope(type, setpointPercent))
                .in(unit));
  }

  private double slope(UnitType type, double setpointPercent) {
    return unit.equals("mA")
        ? Math.abs(type.percentPerMilliampAt(Position.ofPercent(setpointPercent)))
        : 1.0;
  }
}
