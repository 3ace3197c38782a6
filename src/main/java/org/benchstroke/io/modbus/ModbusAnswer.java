package org.benchstroke.io.modbus;

import java.util.Arrays;

/** The checked answer to one request: its data, and when it was asked and answered. Immutable. */
public final class ModbusAnswer {
  private final byte[] data;
  private final String note;
  private final long askedNanos;
  private final long answeredNanos;

  /** Of data that nobody changes any more. */
  ModbusAnswer(byte[] data, String note, long askedNanos, long answeredNanos) {
    this.data = data;
    this.note = note;
    this.askedNanos = askedNanos;
    this.answeredNanos = answeredNanos;
  }

  /** The same answer, with something in front of its note. */
  ModbusAnswer after(String before) {
    return before.isEmpty()
        ? this
        : new ModbusAnswer(data, before + note, askedNanos, answeredNanos);
  }

  /** What followed the byte count of a read; empty for a write. */
  public byte[] data() {
    return data.clone();
  }

  /** The bit at an offset from the first one that was asked for (first bit = lowest bit). */
  boolean bit(int offset) {
    return ((data[offset / 8] >> (offset % 8)) & 1) == 1;
  }

  /** The data of a register or bit that the request covered. */
  byte[] dataOf(Register register, int firstAddress) {
    int offset = register.address() - firstAddress;
    if (register.table().bits()) {
      return new byte[] {(byte) (bit(offset) ? 1 : 0)};
    }
    return Arrays.copyOfRange(data, 2 * offset, 2 * (offset + register.type().words()));
  }

  /** What went wrong on the way to it and was mended, for the record; empty if nothing did. */
  public String note() {
    return note;
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
