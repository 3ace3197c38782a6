package org.benchstroke.instrument.modbus;

import java.util.Arrays;
import java.util.Optional;

/**
 * One request, and what its reply must look like. Each function used here has the same shape:
 * function, address, one 16-bit value.
 *
 * <p>Source: MODBUS Application Protocol V1.1b3, 6.1 to 6.5. Immutable.
 *
 * @param function 01, 02, 03, 04 (reads) or 05 (write single coil)
 * @param address the 0-based address
 * @param value the count of a read; FF00 (on) or 0000 (off) of a coil
 */
record ModbusRequest(int function, int address, int value) {
  static final int WRITE_COIL = 0x05;
  static final int MOST_BITS = 2000;
  static final int MOST_REGISTERS = 125;
  private static final int COIL_ON = 0xFF00;
  private static final int EXCEPTION_BIT = 0x80;

  static ModbusRequest read(Register.Table table, int address, int count) {
    int most = table.bits() ? MOST_BITS : MOST_REGISTERS;
    if (count < 1 || count > most || address < 0 || address + count > 65536) {
      throw new IllegalArgumentException(
          "a read of " + count + " from " + table.key() + " " + address + " is not possible");
    }
    return new ModbusRequest(table.readFunction(), address, count);
  }

  static ModbusRequest writeCoil(int address, boolean on) {
    return new ModbusRequest(WRITE_COIL, address, on ? COIL_ON : 0);
  }

  boolean writes() {
    return function == WRITE_COIL;
  }

  byte[] pdu() {
    return new byte[] {
      (byte) function, (byte) (address >> 8), (byte) address, (byte) (value >> 8), (byte) value
    };
  }

  /** Function and address, for the record. */
  String brief() {
    return Hex.of(pdu(), 0, 3);
  }

  /**
   * The exception code that the reply carries, if it is a well-formed exception of this request.
   */
  Optional<ModbusRefusal> refusal(byte[] reply) {
    boolean refused = reply.length == 2 && (reply[0] & 0xFF) == (function | EXCEPTION_BIT);
    return refused ? Optional.of(new ModbusRefusal(reply[1] & 0xFF)) : Optional.empty();
  }

  /** What is wrong with a reply that is no exception; empty if nothing is. */
  Optional<String> fault(byte[] reply) {
    int got = reply[0] & 0xFF;
    if (got != function) {
      return Optional.of(
          "the reply is for function " + Hex.of(got) + ", asked was " + Hex.of(function));
    }
    return writes() ? echoFault(reply) : countFault(reply);
  }

  /** The data of a sound reply to a read: what follows the byte count. */
  byte[] data(byte[] reply) {
    return writes() ? new byte[0] : Arrays.copyOfRange(reply, 2, reply.length);
  }

  private Optional<String> echoFault(byte[] reply) {
    return Arrays.equals(reply, pdu())
        ? Optional.empty()
        : Optional.of("the echo differs from the write: the reply says " + Hex.of(reply));
  }

  private Optional<String> countFault(byte[] reply) {
    boolean bits = function <= Register.Table.DISCRETE.readFunction();
    int expected = bits ? (value + 7) / 8 : 2 * value;
    int stated = reply.length < 2 ? 0 : reply[1] & 0xFF;
    int came = Math.max(0, reply.length - 2);
    if (stated == expected && came == expected) {
      return Optional.empty();
    }
    return Optional.of(
        expected
            + " bytes of data were asked for; the reply states "
            + stated
            + " and holds "
            + came);
  }
}
