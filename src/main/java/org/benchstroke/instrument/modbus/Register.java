package org.benchstroke.instrument.modbus;

/**
 * Where a value stands in a Modbus device and how it is written there.
 *
 * @param table which of the four tables
 * @param address the 0-based address of the protocol
 * @param type how the value is coded
 * @param order the order of its bytes on the wire, for types wider than one register
 * @param scale value = register × scale + offset
 * @param offset see scale
 */
public record Register(
    Table table, int address, Type type, Order order, double scale, double offset) {

  /** The four tables of the MODBUS Application Protocol V1.1b3, 4.3. */
  public enum Table {
    COIL("coil", true, 0x01),
    DISCRETE("discrete", true, 0x02),
    HOLDING("holding", false, 0x03),
    INPUT("input", false, 0x04);

    private final String key;
    private final boolean bits;
    private final int readFunction;

    Table(String key, boolean bits, int readFunction) {
      this.key = key;
      this.bits = bits;
      this.readFunction = readFunction;
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
  }

  /** How a value is coded. */
  public enum Type {
    BIT("bit", 1),
    I16("i16", 1),
    U16("u16", 1),
    I32("i32", 2),
    U32("u32", 2),
    F32("f32", 2);

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
  }

  /** The order of four bytes on the wire; A is the most significant. */
  public enum Order {
    ABCD,
    CDAB,
    BADC,
    DCBA
  }

  public Register {
    if (address < 0 || address + type.words() > 65536) {
      throw new IllegalArgumentException("a Modbus address is 0 to 65535, not " + address);
    }
    if (table.bits() != (type == Type.BIT)) {
      throw new IllegalArgumentException("table " + table.key() + " can't hold type " + type.key());
    }
  }
}
