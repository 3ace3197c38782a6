package org.benchstroke.instrument.modbus;

/**
 * How long an RTU line must be silent before a frame.
 *
 * <p>Source: MODBUS over Serial Line V1.02, 2.5.1.1: 3.5 characters of 11 bits; 1.75 ms above 19200
 * bit/s. Immutable.
 *
 * @param silenceNanos ns of wall time; 0 where the bytes do not travel on a wire of ours
 */
public record RtuTiming(long silenceNanos) {
  /** RTU frames over TCP: whoever has the wire keeps the silence. */
  public static final RtuTiming NONE = new RtuTiming(0);

  private static final int FASTEST_RECKONED = 19_200;
  private static final long FIXED_NANOS = 1_750_000L;
  private static final double BITS = 3.5 * 11;

  /**
   * The silence of a serial line.
   *
   * @param speed bit/s; 0 for no wire
   */
  public static RtuTiming ofSpeed(int speed) {
    if (speed < 0) {
      throw new IllegalArgumentException("a speed is above 0 bit/s, not " + speed);
    }
    if (speed == 0) {
      return NONE;
    }
    return new RtuTiming(speed > FASTEST_RECKONED ? FIXED_NANOS : Math.round(BITS / speed * 1e9));
  }

  /** Whether there is a wire. */
  boolean wired() {
    return silenceNanos > 0;
  }
}
