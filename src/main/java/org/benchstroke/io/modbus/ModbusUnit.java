package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;

/** One instrument on a line. The line's thread only. */
final class ModbusUnit {
  private final String name;
  private final ModbusLine line;
  private final int id;

  ModbusUnit(String name, ModbusLine line, int id) {
    this.name = name;
    this.line = line;
    this.id = id;
  }

  String name() {
    return name;
  }

  ModbusLine line() {
    return line;
  }

  ModbusAnswer ask(ModbusRequest request, Deadline deadline) throws InstrumentException {
    return line.exchange(name, id, request, deadline);
  }

  /** An error that the line itself could not see. */
  InstrumentException failure(Kind kind, String exchange, String detail) {
    return new InstrumentException(kind, name, line.endpoint().text(), exchange, detail);
  }

  /** A reply that is sound as such, but says what can't be. */
  InstrumentException badReply(String exchange, String detail) {
    line.distrust();
    return failure(Kind.BAD_REPLY, exchange, detail);
  }

  String exchange(ModbusRequest request, ModbusAnswer answer) {
    return "unit id " + id + ": " + request.brief() + " -> " + Hex.of(answer.data());
  }
}
