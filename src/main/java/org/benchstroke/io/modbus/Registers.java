package org.benchstroke.io.modbus;

import java.nio.ByteBuffer;
import java.util.Arrays;
import org.benchstroke.core.quantity.Numbers;

/**
 * Values to and from the bytes of registers as they stand on the wire.
 *
 * <p>Each register is sent high byte first (MODBUS Application Protocol V1.1b3, 4.2); how several
 * registers make one value is the device's own affair, hence {@link Register.Order}. A float is
 * IEEE 754 single or double precision. BCD holds one decimal digit in four bits. Whole numbers of
 * 64 bits beyond 2^53 are rounded. Stateless.
 */
public final class Registers {
  private Registers() {}

  /**
   * The number in the registers, before scale and offset.
   *
   * @param data 2 bytes for each register as they came; one byte, 0 or 1, for a bit
   * @return maybe no finite number, where the register holds a float; not a number, where a digit
   *     of BCD is above 9
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
      case I64 -> bytes.getLong();
      case U64 -> unsigned(bytes.getLong());
      case F64 -> bytes.getDouble();
      case BCD16, BCD32 -> decimal(bytes);
    };
  }

  /** The value in its unit: number × scale + offset. */
  public static double value(Register register, byte[] data) {
    return scaled(register, number(register, data));
  }

  /** The value of a number that the register holds: number × scale + offset. */
  static double scaled(Register register, double number) {
    return number * register.scale() + register.offset();
  }

  /** The value nearest to this one between the ends of what the register can hold. */
  public static double nearest(Register register, double value) {
    double number = (value - register.offset()) / register.scale();
    double held = Math.max(lowest(register.type()), Math.min(highest(register.type()), number));
    return scaled(register, held);
  }

  /**
   * The bytes of a value, rounded to the nearest number that the register can hold.
   *
   * @throws IllegalArgumentException if the register can't hold it; nothing is clipped
   */
  public static byte[] bytes(Register register, double value) {
    double number = (value - register.offset()) / register.scale();
    return inOrder(
        register,
        switch (register.type()) {
          case F32 -> {
            require(Float.isFinite((float) number), register, value);
            yield ByteBuffer.allocate(4).putFloat((float) number).array();
          }
          case F64 -> {
            require(Double.isFinite(number), register, value);
            yield ByteBuffer.allocate(8).putDouble(number).array();
          }
          default -> whole(register, value, Math.rint(number));
        });
  }

  private static byte[] whole(Register register, double value, double whole) {
    Register.Type type = register.type();
    require(whole >= lowest(type) && whole <= highest(type), register, value);
    boolean decimal = type == Register.Type.BCD16 || type == Register.Type.BCD32;
    // A long takes any whole number but the upper half of u64.
    long bits = whole < 0x1p63 ? (long) whole : (long) (whole - 0x1p63) + Long.MIN_VALUE;
    byte[] wide = ByteBuffer.allocate(8).putLong(decimal ? coded(bits) : bits).array();
    return Arrays.copyOfRange(wide, 8 - type.bytes(), 8);
  }

  /** Each of the orders undoes itself, so that one method serves both ways. */
  private static byte[] inOrder(Register register, byte[] d) {
    int width = register.type().bytes();
    if (d.length != width) {
      throw new IllegalArgumentException(
          "type " + register.type().key() + " takes " + width + " bytes, not " + d.length);
    }
    if (register.type().words() == 1 || register.order() == Register.Order.ABCD) {
      return d;
    }
    byte[] turned = new byte[width];
    for (int i = 0; i < width; i++) {
      int word = register.order().lowWordFirst() ? width / 2 - 1 - i / 2 : i / 2;
      int half = register.order().lowByteFirst() ? 1 - i % 2 : i % 2;
      turned[i] = d[2 * word + half];
    }
    return turned;
  }

  private static double unsigned(long bits) {
    return bits >= 0 ? (double) bits : (double) ((bits >>> 1) | (bits & 1)) * 2.0;
  }

  private static double decimal(ByteBuffer bytes) {
    double number = 0.0;
    while (bytes.hasRemaining()) {
      int pair = Byte.toUnsignedInt(bytes.get());
      if (pair >> 4 > 9 || (pair & 0xF) > 9) {
        return Double.NaN;
      }
      number = number * 100.0 + (pair >> 4) * 10.0 + (pair & 0xF);
    }
    return number;
  }

  private static long coded(long number) {
    return Long.parseLong(Long.toString(number), 16);
  }

  private static double lowest(Register.Type type) {
    return switch (type) {
      case BIT, U16, U32, U64, BCD16, BCD32 -> 0.0;
      case I16 -> Short.MIN_VALUE;
      case I32 -> Integer.MIN_VALUE;
      case I64 -> -0x1p63;
      case F32 -> -Float.MAX_VALUE;
      case F64 -> -Double.MAX_VALUE;
    };
  }

  private static double highest(Register.Type type) {
    return switch (type) {
      case BIT -> 1.0;
      case I16 -> Short.MAX_VALUE;
      case U16 -> 0xFFFF;
      case I32 -> Integer.MAX_VALUE;
      case U32 -> 0xFFFF_FFFFL;
      // The greatest doubles below 2^63 and 2^64.
      case I64 -> Math.nextDown(0x1p63);
      case U64 -> Math.nextDown(0x1p64);
      case F32 -> Float.MAX_VALUE;
      case F64 -> Double.MAX_VALUE;
      case BCD16 -> 9999;
      case BCD32 -> 99_999_999;
    };
  }

  private static void require(boolean holds, Register register, double value) {
    if (!holds) {
      throw new IllegalArgumentException(
          register.place() + " (" + register.type().key() + ") can't hold " + Numbers.plain(value));
    }
  }
}
