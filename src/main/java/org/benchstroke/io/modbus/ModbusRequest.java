package org.benchstroke.io.modbus;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * One request, and what its reply must look like. Each function used here begins alike: function,
 * address, one 16-bit value.
 *
 * <p>Source: MODBUS Application Protocol V1.1b3, 6.1 to 6.6 and 6.12. Immutable.
 *
 * @param function 01, 02, 03, 04 (reads), 05 (write single coil), 06 (write single register) or 10
 *     (write multiple registers)
 * @param address the 0-based address
 * @param value the count of a read or of function 10; the register of function 06; FF00 (on) or
 *     0000 (off) of a coil
 * @param words the registers of function 10, else none
 */
public record ModbusRequest(int function, int address, int value, List<Integer> words) {
  static final int WRITE_COIL = 0x05;
  static final int WRITE_REGISTER = 0x06;
  static final int WRITE_REGISTERS = 0x10;
  static final int MOST_BITS = 2000;
  static final int MOST_REGISTERS = 125;
  static final int MOST_WRITTEN = 123;
  static final int EXCEPTION_BIT = 0x80;
  static final int EXCEPTION_BYTES = 2;
  private static final int COIL_ON = 0xFF00;
  private static final int WRITE_REPLY_BYTES = 5;

  public ModbusRequest {
    words = List.copyOf(words);
  }

  ModbusRequest(int function, int address, int value) {
    this(function, address, value, List.of());
  }

  /**
   * Asks for some bits or registers in a row.
   *
   * @throws IllegalArgumentException if the protocol has no such request
   */
  public static ModbusRequest read(Register.Table table, int address, int count) {
    int most = most(table);
    if (count < 1 || count > most || address < 0 || address + count > 65536) {
      throw new IllegalArgumentException(
          "a read of " + count + " from " + table.key() + " " + address + " is not possible");
    }
    return new ModbusRequest(table.readFunction(), address, count);
  }

  static ModbusRequest writeCoil(int address, boolean on) {
    return new ModbusRequest(WRITE_COIL, address, on ? COIL_ON : 0);
  }

  /**
   * Writes registers in a row.
   *
   * @param data two bytes for each, as they go over the wire
   * @param several whether function 10 is used for a single one too
   */
  static ModbusRequest write(int address, byte[] data, boolean several) {
    List<Integer> words = new ArrayList<>();
    ByteBuffer bytes = ByteBuffer.wrap(data);
    while (bytes.hasRemaining()) {
      words.add(Short.toUnsignedInt(bytes.getShort()));
    }
    if (words.isEmpty() || words.size() > MOST_WRITTEN) {
      throw new IllegalArgumentException("a write of " + words.size() + " registers");
    }
    return words.size() == 1 && !several
        ? new ModbusRequest(WRITE_REGISTER, address, words.get(0))
        : new ModbusRequest(WRITE_REGISTERS, address, words.size(), words);
  }

  /** How many values of a table one request may ask for. */
  static int most(Register.Table table) {
    return table.bits() ? MOST_BITS : MOST_REGISTERS;
  }

  boolean writes() {
    return function > Register.Table.INPUT.readFunction();
  }

  private boolean bits() {
    return function <= Register.Table.DISCRETE.readFunction();
  }

  byte[] pdu() {
    int more = words.isEmpty() ? 0 : 1 + 2 * words.size();
    ByteBuffer pdu = ByteBuffer.allocate(WRITE_REPLY_BYTES + more);
    pdu.put((byte) function).putShort((short) address).putShort((short) value);
    if (more > 0) {
      pdu.put((byte) (2 * words.size()));
      words.forEach(word -> pdu.putShort(word.shortValue()));
    }
    return pdu.array();
  }

  /** Function and address, for the record. */
  String brief() {
    return Hex.of(pdu(), 0, 3);
  }

  /** How long the message (the PDU) of a sound reply is that is no exception. */
  int replyBytes() {
    return writes() ? WRITE_REPLY_BYTES : 2 + dataBytes();
  }

  private int dataBytes() {
    return bits() ? (value + 7) / 8 : 2 * value;
  }

  /** Whether a reply to the other could be taken for a reply to this one. */
  boolean replyLooksLike(ModbusRequest other) {
    return function == other.function && replyBytes() == other.replyBytes();
  }

  /**
   * A read of nearly the same whose reply has another length, so that a reply to this one can't be
   * taken for it.
   */
  ModbusRequest unlike() {
    int step = bits() ? 8 : 1;
    int most = bits() ? MOST_BITS : MOST_REGISTERS;
    if (value + step <= most && address + value + step <= 65536) {
      return new ModbusRequest(function, address, value + step);
    }
    return value > step
        ? new ModbusRequest(function, address, value - step)
        : new ModbusRequest(function, address - step, value + step);
  }

  /**
   * The exception code that the reply carries, if it is a well-formed exception of this request.
   */
  Optional<ModbusRefusal> refusal(byte[] reply) {
    boolean refused =
        reply.length == EXCEPTION_BYTES && (reply[0] & 0xFF) == (function | EXCEPTION_BIT);
    return refused ? Optional.of(new ModbusRefusal(reply[1] & 0xFF)) : Optional.empty();
  }

  /** What is wrong with a reply that is no exception; empty if nothing is. */
  Optional<String> fault(byte[] reply) {
    int got = reply[0] & 0xFF;
    if (got != function) {
      return Optional.of(
          "wrong function: the reply is for function "
              + Hex.of(got)
              + ", asked was "
              + Hex.of(function));
    }
    return writes() ? echoFault(reply) : countFault(reply);
  }

  /** The data of a sound reply to a read: what follows the byte count. */
  byte[] data(byte[] reply) {
    return writes() ? new byte[0] : Arrays.copyOfRange(reply, 2, reply.length);
  }

  /** The answer to function 10 repeats the request without its data (6.12). */
  private Optional<String> echoFault(byte[] reply) {
    return Arrays.equals(reply, Arrays.copyOf(pdu(), WRITE_REPLY_BYTES))
        ? Optional.empty()
        : Optional.of("the echo differs from the write: the reply says " + Hex.of(reply));
  }

  private Optional<String> countFault(byte[] reply) {
    int expected = dataBytes();
    int stated = reply.length < 2 ? 0 : reply[1] & 0xFF;
    int came = Math.max(0, reply.length - 2);
    if (stated == expected && came == expected) {
      return Optional.empty();
    }
    return Optional.of(
        "wrong length: "
            + expected
            + " bytes of data were asked for; the reply states "
            + stated
            + " and holds "
            + came);
  }
}
