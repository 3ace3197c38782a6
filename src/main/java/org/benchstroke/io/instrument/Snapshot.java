package org.benchstroke.io.instrument;

import java.util.Map;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.Voltage;

/**
 * What one instrument held at one instant: the readings of its roles, made of the same reply where
 * its map allows. A reading is made when it is asked for, so that one role's missing value does not
 * spoil the others. Each method may be called only if the instrument plays that role. The runner's
 * thread only.
 */
public interface Snapshot {
  Reading<Position> position() throws InstrumentException;

  Reading<Angle> angle() throws InstrumentException;

  Reading<Current> loop() throws InstrumentException;

  Reading<Voltage> supply() throws InstrumentException;

  Reading<Map<LimitSwitch, Boolean>> switches() throws InstrumentException;
}
