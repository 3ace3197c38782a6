package org.benchstroke.io.modbus;

import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.SerialSettings;

/**
 * How long an RTU line must be silent before a frame.
 *
 * <p>Source: MODBUS over Serial Line V1.02, 2.5.1.1: 3.5 characters of the line, which have 11 bits
 * unless it is set otherwise; 1.75 ms above 19200 bit/s. A line may state its own. Immutable.
 *
 * @param silenceNanos ns of wall time, 0 or more
 * @param wired whether the bytes travel on a wire of ours
 */
public record RtuTiming(long silenceNanos, boolean wired) {
  /** RTU frames over TCP: whoever has the wire keeps the silence. */
  public static final RtuTiming NONE = new RtuTiming(0, false);

  private static final int FASTEST_RECKONED = 19_200;
  private static final long FIXED_NANOS = 1_750_000L;
  private static final double CHARACTERS = 3.5;

  /**
   * The silence of a line.
   *
   * @param endpoint a serial port with its settings; {@link #NONE} for anything else
   */
  public static RtuTiming of(Endpoint endpoint) {
    if (!(endpoint instanceof Endpoint.Serial serial)) {
      return NONE;
    }
    SerialSettings settings = serial.settings();
    return new RtuTiming(silenceNanos(settings), true);
  }

  private static long silenceNanos(SerialSettings settings) {
    if (settings.frameSilenceMicros().isPresent()) {
      return settings.frameSilenceMicros().getAsInt() * 1000L;
    }
    return settings.speed() > FASTEST_RECKONED
        ? FIXED_NANOS
        : Math.round(CHARACTERS * settings.bitsPerCharacter() / settings.speed() * 1e9);
  }
}
