package org.benchstroke.io.modbus;

import java.nio.ByteBuffer;
import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;

/** An invented Modbus device: input and holding registers, discrete inputs and coils. */
final class FakeModbusBox {
  private final Map<Integer, Short> registers = new HashMap<>();
  private final BitSet bits = new BitSet();
  private boolean jammed;

  void holds(int address, float value) {
    ByteBuffer bytes = ByteBuffer.allocate(4).putFloat(0, value);
    registers.put(address, bytes.getShort(0));
    registers.put(address + 1, bytes.getShort(2));
  }

  void bit(int address, boolean set) {
    bits.set(address, set);
  }

  boolean bit(int address) {
    return bits.get(address);
  }

  void jam() {
    jammed = true;
  }

  void word(int address, int value) {
    registers.put(address, (short) value);
  }

  int register(int address) {
    return Short.toUnsignedInt(registers.getOrDefault(address, (short) 0));
  }

  /** The same box behind an RTU line. */
  byte[] answerRtu(byte[] frame) {
    byte[] pdu = java.util.Arrays.copyOfRange(frame, 1, frame.length - 2);
    byte[] reply = answer(MbapHeader.frame(1, frame[0], pdu));
    return RtuFrame.of(
        frame[0], java.util.Arrays.copyOfRange(reply, MbapHeader.BYTES, reply.length));
  }

  byte[] answer(byte[] frame) {
    ByteBuffer in = ByteBuffer.wrap(frame);
    short transaction = in.getShort();
    int function = in.get(7);
    int address = Short.toUnsignedInt(in.getShort(8));
    int value = Short.toUnsignedInt(in.getShort(10));
    ByteBuffer out = ByteBuffer.allocate(300);
    out.putShort(transaction).putShort((short) 0).putShort((short) 0).put(frame[6]);
    out.put((byte) function);
    switch (function) {
      case 1, 2 -> putBits(out, address, value);
      case 3, 4 -> putRegisters(out, address, value);
      case 5 -> {
        bits.set(address, jammed ? bits.get(address) : value == 0xFF00);
        out.put(frame, 8, 4);
      }
      case 6 -> {
        set(address, value);
        out.put(frame, 8, 4);
      }
      case 16 -> {
        for (int i = 0; i < value; i++) {
          set(address + i, Short.toUnsignedInt(in.getShort(13 + 2 * i)));
        }
        out.put(frame, 8, 4);
      }
      default -> throw new AssertionError("function " + function);
    }
    out.putShort(4, (short) (out.position() - 6));
    return java.util.Arrays.copyOf(out.array(), out.position());
  }

  private void set(int address, int word) {
    if (!jammed) {
      registers.put(address, (short) word);
    }
  }

  private void putBits(ByteBuffer out, int address, int count) {
    byte[] packed =
        java.util.Arrays.copyOf(bits.get(address, address + count).toByteArray(), (count + 7) / 8);
    out.put((byte) packed.length).put(packed);
  }

  private void putRegisters(ByteBuffer out, int address, int count) {
    out.put((byte) (2 * count));
    for (int i = address; i < address + count; i++) {
      out.putShort(registers.getOrDefault(i, (short) 0));
    }
  }
}
