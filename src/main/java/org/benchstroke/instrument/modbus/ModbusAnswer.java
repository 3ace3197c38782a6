package org.benchstroke.instrument.modbus;

/** The checked answer to one request: its data, and when it was asked and answered. */
final class ModbusAnswer {
  private final byte[] data;
  private final long askedNanos;
  private final long answeredNanos;

  ModbusAnswer(byte[] data, long askedNanos, long answeredNanos) {
    this.data = data.clone();
    this.askedNanos = askedNanos;
    this.answeredNanos = answeredNanos;
  }

  /** What followed the byte count of a read; empty for a write. */
  byte[] data() {
    return data.clone();
  }

  /** The bit at an offset from the first one that was asked for (first bit = lowest bit). */
  boolean bit(int offset) {
    return ((data[offset / 8] >> (offset % 8)) & 1) == 1;
  }

  long askedNanos() {
    return askedNanos;
  }

  long answeredNanos() {
    return answeredNanos;
  }
}
