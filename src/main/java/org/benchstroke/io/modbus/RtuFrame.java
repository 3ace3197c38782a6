package org.benchstroke.io.modbus;

/**
 * Frames of Modbus RTU: unit address, message (PDU), CRC.
 *
 * <p>Source: MODBUS over Serial Line V1.02, 2.5.1. Stateless.
 */
public final class RtuFrame {
  /** The longest frame. */
  public static final int LONGEST = 256;

  /** What a frame adds to its message: the address before it, the CRC behind it. */
  public static final int AROUND = 1 + Crc.BYTES;

  private RtuFrame() {}

  /** A whole frame. */
  public static byte[] of(int unit, byte[] pdu) {
    byte[] frame = new byte[pdu.length + AROUND];
    frame[0] = (byte) unit;
    System.arraycopy(pdu, 0, frame, 1, pdu.length);
    int crc = Crc.of(frame, 0, frame.length - Crc.BYTES);
    frame[frame.length - 2] = (byte) crc;
    frame[frame.length - 1] = (byte) (crc >> 8);
    return frame;
  }
}
