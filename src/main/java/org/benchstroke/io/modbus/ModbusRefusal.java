package org.benchstroke.io.modbus;

import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import org.benchstroke.io.instrument.InstrumentException;

/**
 * An exception reply.
 *
 * <p>Source: MODBUS Application Protocol V1.1b3, 7.
 *
 * @param code the exception code
 */
record ModbusRefusal(int code) {
  static ModbusRefusal of(ExceptionResponse reply) {
    return new ModbusRefusal(reply.getExceptionCode());
  }

  /** Two codes come from a gateway, in place of a device that may have done what it was asked. */
  InstrumentException.Kind kind() {
    return code == 0x0A || code == 0x0B
        ? InstrumentException.Kind.BEHIND_GATEWAY
        : InstrumentException.Kind.REFUSED;
  }

  String words() {
    String name =
        switch (code) {
          case 0x01 -> "illegal function: the device does not offer this kind of access";
          case 0x02 -> "illegal data address: the device has no such address";
          case 0x03 -> "illegal data value: the device does not take this count or value";
          case 0x04 -> "server device failure: the device failed while it carried this out";
          case 0x05 -> "acknowledge: the device has accepted, but is not done";
          case 0x06 -> "server device busy: ask again later";
          case 0x08 -> "memory parity error: the device's memory is at fault";
          case 0x0A -> "gateway path unavailable: the gateway has no path to this unit id";
          case 0x0B ->
              "gateway target device failed to respond: the device behind the gateway is silent";
          default -> "a code that the protocol does not define";
        };
    return "exception " + Hex.of(code) + ", " + name;
  }
}
