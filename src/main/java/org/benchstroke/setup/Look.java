package org.benchstroke.setup;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;

/**
 * One round of readings, in this order.
 *
 * @param angle of the stem
 * @param switches which are made
 * @param position by the unit's own feedback
 */
record Look(
    Optional<Reading<Angle>> angle,
    Optional<Reading<Map<LimitSwitch, Boolean>>> switches,
    Optional<Reading<Position>> position) {
  static final Look NOTHING = new Look(Optional.empty(), Optional.empty(), Optional.empty());

  Optional<Boolean> made(LimitSwitch which) {
    return switches.map(Reading::value).map(all -> all.get(which));
  }
}
