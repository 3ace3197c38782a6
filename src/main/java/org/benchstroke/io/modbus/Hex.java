package org.benchstroke.io.modbus;

import java.util.HexFormat;

/** Bytes as people read them: "04 00 0A". Stateless. */
final class Hex {
  private static final HexFormat SPACED = HexFormat.ofDelimiter(" ").withUpperCase();
  private static final int MOST = 40;

  private Hex() {}

  static String of(int oneByte) {
    return SPACED.toHexDigits((byte) oneByte);
  }

  static String of(byte[] bytes) {
    return of(bytes, 0, bytes.length);
  }

  /** The bytes, cut after 40: more than that tells nobody more. */
  static String of(byte[] bytes, int from, int to) {
    return to - from <= MOST
        ? SPACED.formatHex(bytes, from, to)
        : SPACED.formatHex(bytes, from, from + MOST) + " … (" + (to - from) + " bytes)";
  }
}
