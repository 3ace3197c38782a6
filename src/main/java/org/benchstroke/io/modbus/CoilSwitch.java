package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;

/** Switches a coil and reads it back. Stateless. */
final class CoilSwitch {
  private CoilSwitch() {}

  /** Returns when the coil was known to be as it should, ns of the bench clock. */
  static long set(ModbusUnit unit, Register coil, boolean on, Deadline deadline)
      throws InstrumentException {
    boolean bit = Registers.bytes(coil, on ? 1.0 : 0.0)[0] == 1;
    ModbusWriter.Outcome written =
        new ModbusWriter(unit).write(ModbusRequest.writeCoil(coil.address(), bit), coil, deadline);
    if ((written.image().data(coil)[0] == 1) != bit) {
      throw written.other(
          unit, coil, coil.place() + " was set to " + word(bit) + " but reads " + word(!bit));
    }
    return written.answeredNanos();
  }

  private static String word(boolean bit) {
    return bit ? "1" : "0";
  }
}
