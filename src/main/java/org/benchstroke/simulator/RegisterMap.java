package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.benchstroke.io.modbus.Register.Table;

/**
 * The registers and bits of one Modbus unit. A block's values are taken at once, so that a value of
 * two registers never comes in halves of different instants.
 */
final class RegisterMap {

  /** Takes written values. */
  interface Writer {
    /**
     * Takes one register or bit.
     *
     * @param index its place in the block, from 0
     */
    void write(int index, int value);
  }

  private record Block(
      Table table, int start, int count, Supplier<int[]> reader, List<Writer> writer) {
    boolean holds(Table wanted, int address) {
      return table == wanted && address >= start && address < start + count;
    }
  }

  /** An address that is not there, or that can't be written. */
  static final class NoSuchAddress extends Exception {
    private static final long serialVersionUID = 1L;
  }

  private final List<Block> blocks = new ArrayList<>();

  /** Adds values that can only be read; bits are 0 and 1, registers 0..65535. */
  RegisterMap add(Table table, int start, int count, Supplier<int[]> reader) {
    blocks.add(new Block(table, start, count, reader, List.of()));
    return this;
  }

  /** Adds values that can be written too. */
  RegisterMap add(Table table, int start, int count, Supplier<int[]> reader, Writer writer) {
    blocks.add(new Block(table, start, count, reader, List.of(writer)));
    return this;
  }

  int[] read(Table table, int start, int count) throws NoSuchAddress {
    int[] values = new int[count];
    for (int done = 0; done < count; ) {
      Block block = blockAt(table, start + done);
      int[] all = block.reader().get();
      int index = start + done - block.start();
      int part = Math.min(count - done, block.count() - index);
      System.arraycopy(all, index, values, done, part);
      done += part;
    }
    return values;
  }

  /** Writes all of the values, or none. */
  void write(Table table, int start, int[] values) throws NoSuchAddress {
    for (int i = 0; i < values.length; i++) {
      if (blockAt(table, start + i).writer().isEmpty()) {
        throw new NoSuchAddress();
      }
    }
    for (int i = 0; i < values.length; i++) {
      Block block = blockAt(table, start + i);
      block.writer().get(0).write(start + i - block.start(), values[i]);
    }
  }

  private Block blockAt(Table table, int address) throws NoSuchAddress {
    for (Block block : blocks) {
      if (block.holds(table, address)) {
        return block;
      }
    }
    throw new NoSuchAddress();
  }

  /** A number in two registers, the most significant first. */
  static int[] words(int bits) {
    return new int[] {bits >>> 16, bits & 0xFFFF};
  }
}
