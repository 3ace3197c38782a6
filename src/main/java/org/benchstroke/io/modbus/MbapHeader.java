package org.benchstroke.io.modbus;

import java.util.Optional;

/**
 * The header that Modbus TCP puts before a message.
 *
 * <p>Source: MODBUS Messaging on TCP/IP Implementation Guide V1.0b, 3.1.3 (from memory; the frames
 * are checked against an independent server in the tests). Immutable.
 *
 * @param transaction the number that pairs a reply with its request, 0..65535
 * @param protocol always 0
 * @param length how many bytes follow the length field, the unit id included
 * @param unit the unit id, 0..255
 */
record MbapHeader(int transaction, int protocol, int length, int unit) {
  static final int BYTES = 7;

  /** The bytes before those that the length field counts. */
  static final int UNCOUNTED = 6;

  /** Unit id and a message of 2 (exception) to 253 bytes. */
  private static final int SHORTEST = 3;

  static final int LONGEST = 254;

  /** A whole frame. */
  static byte[] frame(int transaction, int unit, byte[] pdu) {
    byte[] frame = new byte[BYTES + pdu.length];
    frame[0] = (byte) (transaction >> 8);
    frame[1] = (byte) transaction;
    frame[4] = (byte) ((pdu.length + 1) >> 8);
    frame[5] = (byte) (pdu.length + 1);
    frame[6] = (byte) unit;
    System.arraycopy(pdu, 0, frame, BYTES, pdu.length);
    return frame;
  }

  /** Reads the header at the start of at least {@link #BYTES} bytes. */
  static MbapHeader of(byte[] frame) {
    return new MbapHeader(word(frame, 0), word(frame, 2), word(frame, 4), frame[6] & 0xFF);
  }

  /** What is wrong with this header of a reply; empty if nothing is. */
  Optional<String> fault(int askedTransaction, int askedUnit) {
    if (protocol != 0) {
      return Optional.of("the protocol id is " + protocol + ", not 0: this is not Modbus TCP");
    }
    if (length < SHORTEST || length > LONGEST) {
      return Optional.of(
          "the length field says " + length + ", allowed are " + SHORTEST + " to " + LONGEST);
    }
    if (transaction != askedTransaction) {
      return Optional.of(otherTransaction(askedTransaction));
    }
    if (unit != askedUnit) {
      return Optional.of("wrong address: the reply is from unit id " + unit + ", not " + askedUnit);
    }
    return Optional.empty();
  }

  private String otherTransaction(int asked) {
    int behind = (asked - transaction) & 0xFFFF;
    String what =
        behind < 0x8000
            ? "late reply: it answers transaction " + transaction + ", an earlier question"
            : "wrong transaction number: it answers transaction "
                + transaction
                + ", which was never asked";
    return what + "; this is transaction " + asked;
  }

  private static int word(byte[] bytes, int at) {
    return ((bytes[at] & 0xFF) << 8) | (bytes[at + 1] & 0xFF);
  }
}
