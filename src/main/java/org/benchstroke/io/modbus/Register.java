package org.benchstroke.io.modbus;

import java.util.List;

/**
 * Where a value stands in a Modbus device and how it is written there. Immutable.
 *
 * @param table which of the four tables
 * @param address the 0-based address of the protocol
 * @param written the address as the bench file writes it, "40001" or "0"
 * @param type how the value is coded
 * @param order the order of its bytes on the wire, for types wider than one register
 * @param scale value = register × scale + offset
 * @param offset see scale
 * @param guard what a reading of it must keep to
 */
public record Register(
    Table table,
    int address,
    String written,
    Type type,
    Order order,
    double scale,
    double offset,
    Guard guard) {

  /** The four tables of the MODBUS Application Protocol V1.1b3, 4.3. */
  public enum Table {
    COIL("coil", true, 0x01, 0),
    DISCRETE("discrete", true, 0x02, 1),
    HOLDING("holding", false, 0x03, 4),
    INPUT("input", false, 0x04, 3);

    private final String key;
    private final boolean bits;
    private final int readFunction;
    private final int leadingDigit;

    Table(String key, boolean bits, int readFunction, int leadingDigit) {
      this.key = key;
      this.bits = bits;
      this.readFunction = readFunction;
      this.leadingDigit = leadingDigit;
    }

    public String key() {
      return key;
    }

    /** Whether it holds bits rather than 16-bit registers. */
    public boolean bits() {
      return bits;
    }

    /** The function code that reads it. */
    public int readFunction() {
      return readFunction;
    }

    /** The first digit of its addresses as data sheets often print them: 40001, 400001. */
    public int leadingDigit() {
      return leadingDigit;
    }
  }

  /** How a value is coded. */
  public enum Type {
    BIT("bit", 1),
    I16("i16", 1),
    U16("u16", 1),
    I32("i32", 2),
    U32("u32", 2),
    F32("f32", 2),
    I64("i64", 4),
    U64("u64", 4),
    F64("f64", 4),
    BCD16("bcd16", 1),
    BCD32("bcd32", 2);

    private final String key;
    private final int words;

    Type(String key, int words) {
      this.key = key;
      this.words = words;
    }

    public String key() {
      return key;
    }

    /** How many registers (or bits) it takes. */
    public int words() {
      return words;
    }

    /** How many bytes of a reply it takes when it is read by itself. */
    public int bytes() {
      return this == BIT ? 1 : 2 * words;
    }

    /** Whether it is a float. */
    public boolean real() {
      return this == F32 || this == F64;
    }
  }

  /**
   * The order of the bytes on the wire; A is the most significant of four. Of eight bytes A to H:
   * ABCD is ABCDEFGH, CDAB is GHEFCDAB (words turned round), BADC is BADCFEHG (bytes of each word
   * turned round), DCBA is HGFEDCBA (both).
   */
  public enum Order {
    ABCD(false, false),
    CDAB(true, false),
    BADC(false, true),
    DCBA(true, true);

    private final boolean lowWordFirst;
    private final boolean lowByteFirst;

    Order(boolean lowWordFirst, boolean lowByteFirst) {
      this.lowWordFirst = lowWordFirst;
      this.lowByteFirst = lowByteFirst;
    }

    /** Whether the least significant register comes first. */
    public boolean lowWordFirst() {
      return lowWordFirst;
    }

    /** Whether the low byte of each register comes first. */
    public boolean lowByteFirst() {
      return lowByteFirst;
    }
  }

  public Register {
    if (address < 0 || address + type.words() > 65536) {
      throw new IllegalArgumentException("a Modbus address is 0 to 65535, not " + address);
    }
    if (table.bits() != (type == Type.BIT)) {
      throw new IllegalArgumentException("table " + table.key() + " can't hold type " + type.key());
    }
  }

  /** A register without a guard, its address written 0-based. */
  public Register(Table table, int address, Type type, Order order, double scale, double offset) {
    this(table, address, Integer.toString(address), type, order, scale, offset, Guard.NONE);
  }

  /** A bit: 1 means on, or made. */
  public static Register bit(Table table, int address, String written) {
    return new Register(table, address, written, Type.BIT, Order.ABCD, 1.0, 0.0, Guard.NONE);
  }

  /** The first address after it. */
  public int end() {
    return address + type.words();
  }

  /** Where it stands as the bench file writes it: "holding 40001", "input 0". */
  public String place() {
    return table.key() + " " + written;
  }

  /** Whether both stand at one place and are read in one way. */
  boolean sameAs(Register other) {
    return table == other.table
        && address == other.address
        && type == other.type
        && (type.words() == 1 || order == other.order);
  }

  /** Whether the two have an address in common but do not agree on what stands there. */
  public boolean clashesWith(Register other) {
    return table == other.table && address < other.end() && other.address < end() && !sameAs(other);
  }

  /** The registers that are read with it: itself, and the counter that shows that it is alive. */
  List<Register> parts() {
    return guard.counter().map(c -> List.of(this, c.register())).orElse(List.of(this));
  }
}
