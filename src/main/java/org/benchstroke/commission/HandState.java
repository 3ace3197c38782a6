package org.benchstroke.commission;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;

/**
 * What was set by hand and what the instruments read. Immutable.
 *
 * @param set the current that the source reads back
 * @param setting the position that it stands for
 * @param loop the current that flows, where there is a meter
 * @param position the unit's own feedback
 * @param stem the stem's angle, where there is a reference
 * @param switches the switches that are wired; empty if none is
 */
public record HandState(
    Current set,
    Position setting,
    Optional<Reading<Current>> loop,
    Reading<Position> position,
    Optional<Reading<Angle>> stem,
    Map<LimitSwitch, Boolean> switches) {

  /** One line for a screen. */
  public String line() {
    StringBuilder line = new StringBuilder();
    line.append("set ").append(set).append(" = ").append(Numbers.fixed(setting.percent(), 1));
    line.append(" %   ");
    loop.ifPresent(reading -> line.append("loop ").append(reading.value()).append("   "));
    line.append("position ").append(position.value());
    if (position.is(Doubt.SATURATED)) {
      line.append(" (END OF RANGE)");
    }
    stem.ifPresent(
        reading ->
            line.append("   stem ")
                .append(Numbers.fixed(reading.value().degrees(), 2))
                .append(" °"));
    if (!switches.isEmpty()) {
      line.append("   switches: ").append(RoleQuestions.words(switches));
    }
    return line.toString();
  }
}
