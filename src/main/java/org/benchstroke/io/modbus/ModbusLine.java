package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.transport.Endpoint;

/**
 * One connection or wire on which Modbus is spoken, shared by every instrument on it. One thread
 * owns it.
 */
public sealed interface ModbusLine permits ModbusTcpLine, ModbusRtuLine {
  /** Where it is reached. */
  Endpoint endpoint();

  /**
   * Opens the line if it is not open.
   *
   * @param instrument on whose behalf, for the message of a failure
   */
  void open(String instrument, Deadline deadline) throws InstrumentException;

  /**
   * Sends one request and waits for its reply, which is checked in full.
   *
   * @param instrument on whose behalf, for the message of a failure
   * @param unit the unit id that is asked
   * @throws InstrumentException {@code REFUSED} for an exception reply, with its meaning; {@code
   *     NO_REPLY} if no whole reply came by the deadline; {@code BAD_REPLY} for anything that is
   *     not the reply to this request; {@code PORT_GONE}
   */
  ModbusAnswer exchange(String instrument, int unit, ModbusRequest request, Deadline deadline)
      throws InstrumentException;

  /**
   * After a reply that was sound as such but says what can't be: nothing on the line is trusted.
   */
  void distrust();

  /** Closes the line; may be repeated. The next exchange opens it again. */
  void close();
}
