package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;

/** Writes a keep-alive register when it is due. The line's thread only. */
final class ModbusPulse {
  private final ModbusUnit unit;
  private final KeepAlive keepAlive;
  private int next;
  private boolean written;
  private long lastWallNanos;

  ModbusPulse(ModbusUnit unit, KeepAlive keepAlive) {
    this.unit = unit;
    this.keepAlive = keepAlive;
  }

  void beat(Deadline deadline) throws InstrumentException {
    long now = deadline.clock().wallNanos();
    double wallSeconds = (now - lastWallNanos) / 1e9;
    if (written && wallSeconds < keepAlive.periodSeconds()) {
      return;
    }
    Register register = keepAlive.register();
    byte[] data = Registers.bytes(register, keepAlive.values().get(next));
    ModbusRequest request =
        register.table().bits()
            ? ModbusRequest.writeCoil(register.address(), data[0] == 1)
            : ModbusRequest.write(register.address(), data, false);
    unit.ask(request, deadline);
    lastWallNanos = now;
    written = true;
    next = (next + 1) % keepAlive.values().size();
  }
}
