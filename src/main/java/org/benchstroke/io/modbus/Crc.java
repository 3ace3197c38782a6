package org.benchstroke.io.modbus;

/**
 * The check value of an RTU frame: CRC-16, polynomial 8005 (reflected: A001), start value FFFF, low
 * byte first on the wire.
 *
 * <p>Source: MODBUS over Serial Line V1.02, 2.5.1.2 and appendix B. Stateless.
 */
public final class Crc {
  /** How many bytes it takes at the end of a frame. */
  public static final int BYTES = 2;

  private static final int START = 0xFFFF;
  private static final int POLYNOMIAL = 0xA001;
  private static final int[] TABLE = table();

  private Crc() {}

  /** The check value of some bytes, 0..65535. */
  public static int of(byte[] bytes, int from, int to) {
    int crc = START;
    for (int i = from; i < to; i++) {
      crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 0xFF];
    }
    return crc;
  }

  /**
   * Where the first sound frame that begins here ends: its check value and that of its bytes cancel
   * to 0.
   *
   * @param least the fewest bytes that it may have
   * @param to it must end here or before
   * @return -1 if there is none
   */
  public static int soundEnd(byte[] bytes, int from, int least, int to) {
    int crc = START;
    for (int i = from; i < to; i++) {
      crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 0xFF];
      if (crc == 0 && i + 1 - from >= least) {
        return i + 1;
      }
    }
    return -1;
  }

  /** Whether the bytes end with the check value of those before. */
  public static boolean endsSound(byte[] bytes, int from, int to) {
    return to - from > BYTES && of(bytes, from, to - BYTES) == stated(bytes, to);
  }

  /** The check value that stands in the last two bytes before an index. */
  public static int stated(byte[] bytes, int to) {
    return (bytes[to - 2] & 0xFF) | ((bytes[to - 1] & 0xFF) << 8);
  }

  private static int[] table() {
    int[] table = new int[256];
    for (int i = 0; i < table.length; i++) {
      int crc = i;
      for (int bit = 0; bit < 8; bit++) {
        crc = (crc & 1) == 1 ? (crc >>> 1) ^ POLYNOMIAL : crc >>> 1;
      }
      table[i] = crc;
    }
    return table;
  }
}
