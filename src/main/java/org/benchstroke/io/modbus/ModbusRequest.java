package org.benchstroke.io.modbus;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.util.Arrays;
import java.util.Optional;

/**
 * One request, and what its reply must look like. The messages are the library's; whether a reply
 * is one to this request is decided here, on its bytes, before the library reads it.
 *
 * <p>Source: MODBUS Application Protocol V1.1b3, 6.1 to 6.6 and 6.12. Immutable.
 */
public final class ModbusRequest {
  static final int EXCEPTION_BIT = Modbus.EXCEPTION_OFFSET;
  static final int EXCEPTION_BYTES = 2;
  private static final int MOST_BITS = 2000;
  private static final int MOST_REGISTERS = 125;
  private static final int MOST_WRITTEN = 123;
  private static final int WRITE_REPLY_BYTES = 5;

  private final com.ghgande.j2mod.modbus.msg.ModbusRequest message;
  private final int address;
  private final int count;
  private final byte[] pdu;
  private final String brief;

  private ModbusRequest(
      com.ghgande.j2mod.modbus.msg.ModbusRequest message, int address, int count) {
    this.message = message;
    this.address = address;
    this.count = count;
    this.pdu = MessageCodec.bytes(message);
    this.brief = Hex.of(pdu, 0, 3);
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
    return reading(table.readFunction(), address, count);
  }

  private static ModbusRequest reading(int function, int address, int count) {
    return new ModbusRequest(
        switch (function) {
          case Modbus.READ_COILS -> new ReadCoilsRequest(address, count);
          case Modbus.READ_INPUT_DISCRETES -> new ReadInputDiscretesRequest(address, count);
          case Modbus.READ_HOLDING_REGISTERS -> new ReadMultipleRegistersRequest(address, count);
          case Modbus.READ_INPUT_REGISTERS -> new ReadInputRegistersRequest(address, count);
          default -> throw new IllegalArgumentException("function " + function + " reads nothing");
        },
        address,
        count);
  }

  static ModbusRequest writeCoil(int address, boolean on) {
    return new ModbusRequest(new WriteCoilRequest(address, on), address, 1);
  }

  /**
   * Writes registers in a row.
   *
   * @param data two bytes for each, as they go over the wire
   * @param several whether function 10 is used for a single one too
   */
  static ModbusRequest write(int address, byte[] data, boolean several) {
    SimpleRegister[] words = new SimpleRegister[data.length / 2];
    Arrays.setAll(words, i -> new SimpleRegister(data[2 * i], data[2 * i + 1]));
    if (words.length == 0 || words.length > MOST_WRITTEN) {
      throw new IllegalArgumentException("a write of " + words.length + " registers");
    }
    return new ModbusRequest(
        words.length == 1 && !several
            ? new WriteSingleRegisterRequest(address, words[0])
            : new WriteMultipleRegistersRequest(address, words),
        address,
        words.length);
  }

  /** How many values of a table one request may ask for. */
  static int most(Register.Table table) {
    return table.bits() ? MOST_BITS : MOST_REGISTERS;
  }

  int function() {
    return message.getFunctionCode();
  }

  /** How many registers or bits it reads or writes. */
  int count() {
    return count;
  }

  boolean writes() {
    return function() > Modbus.READ_INPUT_REGISTERS;
  }

  private boolean bits() {
    return function() <= Modbus.READ_INPUT_DISCRETES;
  }

  /** Its bytes, which nobody changes: every poll sends them. */
  byte[] pdu() {
    return pdu;
  }

  /** Function and address, for the record. */
  String brief() {
    return brief;
  }

  /** How long the message (the PDU) of a sound reply is that is no exception. */
  int replyBytes() {
    return writes() ? WRITE_REPLY_BYTES : 2 + dataBytes();
  }

  private int dataBytes() {
    return bits() ? (count + 7) / 8 : 2 * count;
  }

  /** Whether a reply to the other could be taken for a reply to this one. */
  boolean replyLooksLike(ModbusRequest other) {
    return function() == other.function() && replyBytes() == other.replyBytes();
  }

  /**
   * A read of nearly the same whose reply has another length, so that a reply to this one can't be
   * taken for it.
   */
  ModbusRequest unlike() {
    int step = bits() ? 8 : 1;
    int most = bits() ? MOST_BITS : MOST_REGISTERS;
    if (count + step <= most && address + count + step <= 65536) {
      return reading(function(), address, count + step);
    }
    return count > step
        ? reading(function(), address, count - step)
        : reading(function(), address - step, count + step);
  }

  /** Whether the message between two places of a frame is a well-formed exception to this. */
  boolean isRefusedBy(byte[] frame, int from, int to) {
    return to - from == EXCEPTION_BYTES && (frame[from] & 0xFF) == (function() | EXCEPTION_BIT);
  }

  /** What is wrong with a reply that is no exception; empty if nothing is. */
  Optional<String> fault(byte[] frame, int from, int to) {
    int got = frame[from] & 0xFF;
    if (got != function()) {
      return Optional.of(
          "wrong function: the reply is for function "
              + Hex.of(got)
              + ", not "
              + Hex.of(function()));
    }
    return writes() ? echoFault(frame, from, to) : countFault(frame, from, to);
  }

  /** The reply in a message that {@link #isRefusedBy} or {@link #fault} has passed. */
  ModbusResponse reply(MessageCodec codec, byte[] frame, int from, int to) {
    boolean refused = isRefusedBy(frame, from, to);
    return codec.read(
        refused ? new ExceptionResponse(function()) : message.getResponse(), frame, from, to);
  }

  /**
   * The answer to a write repeats the request, that to function 10 without its data (6.12). It is
   * compared as bytes: the library takes any coil that isn't FF for off, and an address above 7FFF
   * in an answer to function 05 for a negative one.
   */
  private Optional<String> echoFault(byte[] frame, int from, int to) {
    return Arrays.equals(frame, from, to, pdu, 0, WRITE_REPLY_BYTES)
        ? Optional.empty()
        : Optional.of(
            "the echo differs from the write: the reply says "
                + Hex.of(Arrays.copyOfRange(frame, from, to)));
  }

  /**
   * The byte count is the one that was asked for, and is kept. The library believes any, drops half
   * a register, and ends in an error from FD on.
   */
  private Optional<String> countFault(byte[] frame, int from, int to) {
    int expected = dataBytes();
    int stated = to - from < 2 ? 0 : frame[from + 1] & 0xFF;
    int came = Math.max(0, to - from - 2);
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
