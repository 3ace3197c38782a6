package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;

/**
 * Registers that one request reads. Immutable.
 *
 * @param registers at least one, all of one table, in the order of their addresses
 * @param request what reads them
 */
record Block(List<Register> registers, ModbusRequest request) {
  Block {
    registers = List.copyOf(registers);
  }

  Block(List<Register> registers) {
    this(registers, reading(registers));
  }

  /** The fewest requests that read them all, each as far as the protocol allows. */
  static List<Block> plan(Collection<Register> wanted) {
    List<Register> sorted =
        wanted.stream()
            .sorted(Comparator.comparing(Register::table).thenComparing(Register::address))
            .toList();
    List<Block> blocks = new ArrayList<>();
    List<Register> gathered = new ArrayList<>();
    for (Register register : sorted) {
      if (!gathered.isEmpty() && !fits(gathered, register)) {
        blocks.add(new Block(gathered));
        gathered.clear();
      }
      gathered.add(register);
    }
    if (!gathered.isEmpty()) {
      blocks.add(new Block(gathered));
    }
    return blocks;
  }

  private static boolean fits(List<Register> gathered, Register next) {
    Register first = gathered.get(0);
    return first.table() == next.table()
        && next.end() - first.address() <= ModbusRequest.most(first.table());
  }

  /** The parts of it that have no gap between their registers; or else each register by itself. */
  List<Block> smaller() {
    List<Block> runs = new ArrayList<>();
    List<Register> run = new ArrayList<>();
    int end = first();
    for (Register register : registers) {
      if (register.address() > end) {
        runs.add(new Block(run));
        run.clear();
      }
      run.add(register);
      end = Math.max(end, register.end());
    }
    runs.add(new Block(run));
    return runs.size() > 1
        ? runs
        : registers.stream().map(each -> new Block(List.of(each))).toList();
  }

  int first() {
    return registers.get(0).address();
  }

  /** Whether its answer holds what stands in the register. */
  boolean covers(Register register) {
    Register first = registers.get(0);
    return register.table() == first.table()
        && register.address() >= first.address()
        && register.end() <= first.address() + request.count();
  }

  private static ModbusRequest reading(List<Register> registers) {
    Register first = registers.get(0);
    int end = registers.stream().mapToInt(Register::end).max().orElseThrow();
    return ModbusRequest.read(first.table(), first.address(), end - first.address());
  }
}
