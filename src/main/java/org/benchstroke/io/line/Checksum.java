package org.benchstroke.io.line;

import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * The check digits that some instruments put behind a message, as hexadecimal digits, the most
 * significant first.
 *
 * <p>Sources: LRC and CRC-16 of MODBUS over Serial Line V1.02, 6.2.1 and 6.2.2; the others are
 * common practice, their check values from memory.
 */
public enum Checksum {
  /** None. */
  NONE("none", 0),
  /** All bytes exclusive-or: two digits. */
  XOR8("xor8", 2),
  /** The sum of all bytes, its low eight bits: two digits. */
  SUM8("sum8", 2),
  /** The two's complement of that sum: two digits. */
  LRC8("lrc8", 2),
  /** Polynomial 0x8005 reflected, from 0xFFFF: four digits. */
  CRC16_MODBUS("crc16-modbus", 4),
  /** Polynomial 0x1021, from 0xFFFF: four digits. */
  CRC16_CCITT("crc16-ccitt", 4),
  /** Polynomial 0x1021, from 0: four digits. */
  CRC16_XMODEM("crc16-xmodem", 4);

  private final String key;
  private final int digits;

  Checksum(String key, int digits) {
    this.key = key;
    this.digits = digits;
  }

  /** The word for it in files. */
  public String key() {
    return key;
  }

  /** How many hexadecimal digits it has. */
  public int digits() {
    return digits;
  }

  /** The digits of a text, capitals. */
  public String of(String text) {
    return digits == 0 ? "" : String.format(Locale.ROOT, "%0" + digits + "X", value(bytes(text)));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }

  private int value(byte[] bytes) {
    return switch (this) {
      case NONE -> 0;
      case XOR8 -> {
        int xor = 0;
        for (byte b : bytes) {
          xor ^= b & 0xFF;
        }
        yield xor;
      }
      case SUM8 -> sum(bytes) & 0xFF;
      case LRC8 -> -sum(bytes) & 0xFF;
      case CRC16_MODBUS -> reflected(bytes);
      case CRC16_CCITT -> straight(bytes, 0xFFFF);
      case CRC16_XMODEM -> straight(bytes, 0);
    };
  }

  private static int sum(byte[] bytes) {
    int sum = 0;
    for (byte b : bytes) {
      sum += b & 0xFF;
    }
    return sum;
  }

  private static int reflected(byte[] bytes) {
    int crc = 0xFFFF;
    for (byte b : bytes) {
      crc ^= b & 0xFF;
      for (int i = 0; i < 8; i++) {
        crc = (crc & 1) == 1 ? (crc >>> 1) ^ 0xA001 : crc >>> 1;
      }
    }
    return crc;
  }

  private static int straight(byte[] bytes, int start) {
    int crc = start;
    for (byte b : bytes) {
      crc ^= (b & 0xFF) << 8;
      for (int i = 0; i < 8; i++) {
        crc = (crc & 0x8000) != 0 ? (crc << 1) ^ 0x1021 : crc << 1;
      }
    }
    return crc & 0xFFFF;
  }
}
