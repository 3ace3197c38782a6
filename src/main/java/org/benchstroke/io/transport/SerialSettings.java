package org.benchstroke.io.transport;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * How a serial line is set. Immutable.
 *
 * @param speed in baud, {@value #SLOWEST} to {@value #FASTEST}
 * @param dataBits 5 to 8
 * @param parity what guards a character
 * @param stopBits how a character ends
 * @param flowControl who may hold the other side back
 * @param rs485 how the port switches a two-wire line, if the port does that itself
 * @param frameSilenceMicros the silence that parts frames, where it is other than the standard's,
 *     µs
 */
public record SerialSettings(
    int speed,
    int dataBits,
    Parity parity,
    StopBits stopBits,
    FlowControl flowControl,
    Optional<Rs485> rs485,
    OptionalInt frameSilenceMicros) {

  /** A longer silence between frames than anyone needs, µs. */
  public static final int LONGEST_SILENCE_MICROS = 1_000_000;

  /** The slowest and the fastest speed that the operating systems know by name. */
  public static final int SLOWEST = 50;

  public static final int FASTEST = 4_000_000;

  /** MODBUS over Serial Line V1.02, 2.5.1 and 3.2: 19200 baud, 8 data bits, even parity, 1 stop. */
  public static final SerialSettings USUAL =
      new SerialSettings(19200, 8, Parity.EVEN, StopBits.ONE, FlowControl.NONE, Optional.empty());

  /** The parity bit. */
  public enum Parity {
    NONE("none"),
    EVEN("even"),
    ODD("odd"),
    MARK("mark"),
    SPACE("space");

    private final String key;

    Parity(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  /** The stop bits. */
  public enum StopBits {
    ONE(1.0),
    ONE_AND_A_HALF(1.5),
    TWO(2.0);

    private final double bits;

    StopBits(double bits) {
      this.bits = bits;
    }

    /** How many. */
    public double bits() {
      return bits;
    }
  }

  /** The flow control. */
  public enum FlowControl {
    NONE("none"),
    RTS_CTS("rts/cts"),
    DSR_DTR("dsr/dtr"),
    XON_XOFF("xon/xoff");

    private final String key;

    FlowControl(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  /**
   * A port whose driver switches the sender of a two-wire line with the RTS signal.
   *
   * @param rtsActiveHigh whether RTS is high while it sends
   * @param beforeSendMicros from switching to the first bit, µs, 0 to {@value #LONGEST_MICROS}
   * @param afterSendMicros from the last bit to switching back, µs
   * @param termination whether the port's own terminating resistor is switched on
   * @param receiveDuringSend whether it hears what it sends
   */
  public record Rs485(
      boolean rtsActiveHigh,
      int beforeSendMicros,
      int afterSendMicros,
      boolean termination,
      boolean receiveDuringSend) {
    public static final int LONGEST_MICROS = 100_000;

    public Rs485 {
      requireMicros(beforeSendMicros);
      requireMicros(afterSendMicros);
    }

    private static void requireMicros(int micros) {
      if (micros < 0 || micros > LONGEST_MICROS) {
        throw new IllegalArgumentException(
            "an RS-485 delay is 0 to " + LONGEST_MICROS + " µs, not " + micros);
      }
    }
  }

  /** Settings with the standard's silence between frames. */
  public SerialSettings(
      int speed,
      int dataBits,
      Parity parity,
      StopBits stopBits,
      FlowControl flowControl,
      Optional<Rs485> rs485) {
    this(speed, dataBits, parity, stopBits, flowControl, rs485, OptionalInt.empty());
  }

  public SerialSettings {
    if (speed < SLOWEST || speed > FASTEST) {
      throw new IllegalArgumentException(
          "a speed is " + SLOWEST + " to " + FASTEST + " baud, not " + speed);
    }
    if (dataBits < 5 || dataBits > 8) {
      throw new IllegalArgumentException("there are 5 to 8 data bits, not " + dataBits);
    }
    if (!possible(dataBits, stopBits)) {
      throw new IllegalArgumentException(
          stopBits.bits() + " stop bits do not go with " + dataBits + " data bits");
    }
  }

  /** Whether serial ports know the pair: 1.5 stop bits go with 5 data bits and 2 with more. */
  public static boolean possible(int dataBits, StopBits stopBits) {
    return stopBits == StopBits.ONE || (dataBits == 5) == (stopBits == StopBits.ONE_AND_A_HALF);
  }

  /** Bits of one character on the line: start, data, parity and stop. */
  public double bitsPerCharacter() {
    return 1 + dataBits + (parity == Parity.NONE ? 0 : 1) + stopBits.bits();
  }

  /** How long one character takes on the line, ns of wall time. */
  public long characterNanos() {
    return Math.round(bitsPerCharacter() * 1e9 / speed);
  }

  /** For messages: "19200 baud, 8 data bits, even parity, 1 stop bit". */
  public String text() {
    String stop =
        switch (stopBits) {
          case ONE -> "1 stop bit";
          case ONE_AND_A_HALF -> "1.5 stop bits";
          case TWO -> "2 stop bits";
        };
    String flow = flowControl == FlowControl.NONE ? "" : ", " + flowControl.key() + " flow control";
    return speed + " baud, " + dataBits + " data bits, " + parity.key() + " parity, " + stop + flow;
  }
}
