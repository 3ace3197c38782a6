package org.benchstroke.instrument.modbus;

import java.nio.ByteBuffer;
import java.util.Arrays;
import org.benchstroke.quantity.Numbers;

/**
 * Values to and from the bytes of registers as they stand on the wire.
 *
 * <p>Each register is sent high byte first (MODBUS Application Protocol V1.1b3, 4.2); how two
 * registers make one value is the device's own affair, hence {@link Register.Order}. A float is
 * IEEE 754 single precision. Stateless.
 */
public final class Registers {
  private Registers() {}

  /**
   * The number in the registers, before scale and offset.
   *
   * @param data 2 bytes for each register as they came; one byte, 0 or 1, for a bit
   * @return maybe no finite number, where the register holds a float
   */
  public static double number(Register register, byte[] data) {
    ByteBuffer bytes = ByteBuffer.wrap(inOrder(register, data));
    return switch (register.type()) {
      case BIT -> bytes.get() & 1;
      case I16 -> bytes.getShort();
      case U16 -> Short.toUnsignedInt(bytes.getShort());
      case I32 -> bytes.getInt();
      case U32 -> Integer.toUnsignedLong(bytes.getInt());
      case F32 -> bytes.getFloat();
    };
  }

  /** The value in its unit: number × scale + offset. */
  public static double value(Register register, byte[] data) {
    return number(register, data) * register.scale() + register.offset();
  }

  /** The value nearest to this one between the ends of what the register can hold. */
  public static double nearest(Register register, double value) {
    double number = (value - register.offset()) / register.scale();
    double held = Math.max(lowest(register.type()), Math.min(highest(register.type()), number));
    return held * register.scale() + register.offset();
  }

  /**
   * The bytes of a value, rounded to the nearest number that the register can hold.
   *
   * @throws IllegalArgumentException if the register can't hold it; nothing is clipped
   */
  public static byte[] bytes(Register register, double value) {
    double number = (value - register.offset()) / register.scale();
    if (register.type() == Register.Type.F32) {
      float single = (float) number;
      require(Float.isFinite(single), register, value);
      return inOrder(register, ByteBuffer.allocate(4).putFloat(single).array());
    }
    double whole = Math.rint(number);
    require(whole >= lowest(register.type()) && whole <= highest(register.type()), register, value);
    int width = register.type() == Register.Type.BIT ? 1 : 2 * register.type().words();
    byte[] wide = ByteBuffer.allocate(8).putLong((long) whole).array();
    return inOrder(register, Arrays.copyOfRange(wide, 8 - width, 8));
  }

  /** Each of the four orders undoes itself, so that one method serves both ways. */
  private static byte[] inOrder(Register register, byte[] d) {
    int width = register.type() == Register.Type.BIT ? 1 : 2 * register.type().words();
    if (d.length != width) {
      throw new IllegalArgumentException(
          "type " + register.type().key() + " takes " + width + " bytes, not " + d.length);
    }
    if (width != 4) {
      return d;
    }
    return switch (register.order()) {
      case ABCD -> d;
      case CDAB -> new byte[] {d[2], d[3], d[0], d[1]};
      case BADC -> new byte[] {d[1], d[0], d[3], d[2]};
      case DCBA -> new byte[] {d[3], d[2], d[1], d[0]};
    };
  }

  private static double lowest(Register.Type type) {
    return switch (type) {
      case BIT, U16, U32 -> 0.0;
      case I16 -> Short.MIN_VALUE;
      case I32 -> Integer.MIN_VALUE;
      case F32 -> -Float.MAX_VALUE;
    };
  }

  private static double highest(Register.Type type) {
    return switch (type) {
      case BIT -> 1.0;
      case I16 -> Short.MAX_VALUE;
      case U16 -> 0xFFFF;
      case I32 -> Integer.MAX_VALUE;
      case U32 -> 0xFFFF_FFFFL;
      case F32 -> Float.MAX_VALUE;
    };
  }

  private static void require(boolean holds, Register register, double value) {
    if (!holds) {
      throw new IllegalArgumentException(
          register.table().key()
              + " "
              + register.address()
              + " ("
              + register.type().key()
              + ") can't hold "
              + Numbers.plain(value));
    }
  }
}
