package org.benchstroke.io.modbus;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import java.util.Arrays;
import java.util.Set;
import org.benchstroke.io.instrument.Doubt;

/**
 * The checked answer to one request: the reply, and when it was asked and answered. Immutable:
 * nobody else has the reply.
 */
public final class ModbusAnswer {
  private final ModbusResponse reply;
  private final String note;
  private final Set<Doubt> doubts;
  private final long askedNanos;
  private final long answeredNanos;

  ModbusAnswer(
      ModbusResponse reply, String note, Set<Doubt> doubts, long askedNanos, long answeredNanos) {
    this.reply = reply;
    this.note = note;
    this.doubts = doubts;
    this.askedNanos = askedNanos;
    this.answeredNanos = answeredNanos;
  }

  /** The same answer to a second request, with the reason in front of its note. */
  ModbusAnswer toSecondRequest(String reason) {
    return new ModbusAnswer(
        reply, reason + note, Set.of(Doubt.ASKED_AGAIN), askedNanos, answeredNanos);
  }

  /** What followed the byte count of a read; empty for a write. */
  public byte[] data() {
    byte[] message = reply.getMessage();
    boolean read = reply.getFunctionCode() <= Modbus.READ_INPUT_REGISTERS;
    return Arrays.copyOfRange(message, read ? 1 : message.length, message.length);
  }

  /** The bit at an offset from the first one that was asked for. */
  boolean bit(int offset) {
    return reply instanceof ReadCoilsResponse coils
        ? coils.getCoilStatus(offset)
        : ((ReadInputDiscretesResponse) reply).getDiscreteStatus(offset);
  }

  /** The 16 bits of the register at an offset from the first one that was asked for. */
  int word(int offset) {
    InputRegister register =
        reply instanceof ReadInputRegistersResponse input
            ? input.getRegister(offset)
            : ((ReadMultipleRegistersResponse) reply).getRegister(offset);
    return register.getValue();
  }

  /** The data of a register or bit that the request covered. */
  byte[] dataOf(Register register, int firstAddress) {
    int offset = register.address() - firstAddress;
    byte[] data = new byte[register.type().bytes()];
    if (register.table().bits()) {
      data[0] = (byte) (bit(offset) ? 1 : 0);
      return data;
    }
    for (int i = 0; i < register.type().words(); i++) {
      int word = word(offset + i);
      data[2 * i] = (byte) (word >> 8);
      data[2 * i + 1] = (byte) word;
    }
    return data;
  }

  /** What went wrong on the way to it and was mended, for the record; empty if nothing did. */
  public String note() {
    return note;
  }

  /** What is doubtful about it. */
  Set<Doubt> doubts() {
    return doubts;
  }

  /** Bench time when the request was sent that this is the reply to. */
  public long askedNanos() {
    return askedNanos;
  }

  /** Bench time when the reply was complete. */
  public long answeredNanos() {
    return answeredNanos;
  }
}
