package org.benchstroke.aids.twin;

import java.util.List;
import org.benchstroke.core.analysis.Trace;

/**
 * A recorded move and what the twin does in its place. Immutable.
 *
 * @param place the name of the rest at its end
 * @param fromPercent the setpoint before, % of travel
 * @param toPercent the setpoint after
 * @param atSeconds when it changed, s since the record was opened
 * @param measured the recorded position
 * @param modelled the twin's position at each of its samples, % of travel
 */
public record Curve(
    String place,
    double fromPercent,
    double toPercent,
    double atSeconds,
    Trace measured,
    List<Double> modelled) {
  public Curve {
    modelled = List.copyOf(modelled);
  }
}
