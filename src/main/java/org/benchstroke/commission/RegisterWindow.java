package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.modbus.ModbusInstrument;
import org.benchstroke.io.modbus.Register;

/**
 * The registers at and around an address, as far as a device has them.
 *
 * @param table holding or input
 * @param first the first address
 * @param count how many registers
 */
record RegisterWindow(Register.Table table, int first, int count) {
  private static final int ADDRESSES = 65_536;

  /** So many registers at most, and so far from the address, are looked at. */
  private static final int MOST = 6;

  private static final int AWAY = 4;

  /**
   * From where to where, the widest first, of those the ones about a number of two registers at the
   * address. A device may refuse each that holds an address it lacks, the given one included.
   */
  private static final List<int[]> AROUND = around();

  private static List<int[]> around() {
    List<int[]> around = new ArrayList<>();
    for (int from = -AWAY; from <= 2; from++) {
      for (int to = Math.max(from + 1, -1); to <= Math.min(AWAY + 1, from + MOST); to++) {
        around.add(new int[] {from, to});
      }
    }
    around.sort(
        Comparator.<int[]>comparingInt(each -> each[0] - each[1])
            .thenComparingInt(each -> Math.abs(each[0] + each[1] - 2)));
    return around;
  }

  /** Gives the instant by which an exchange must be done. */
  interface Deadlines {
    Deadline next();
  }

  /**
   * Finds the widest window that the device lets be read, in the register's own table, else in the
   * other one.
   *
   * @return empty if the device refuses them all
   * @throws InstrumentException for any failure but a refusal
   */
  static Optional<RegisterWindow> find(
      ModbusInstrument instrument, Register register, Deadlines deadlines)
      throws InstrumentException {
    for (RegisterWindow window : candidates(register)) {
      try {
        if (window.read(instrument, deadlines.next()).value().size() == window.count()) {
          return Optional.of(window);
        }
      } catch (InstrumentException e) {
        if (e.kind() != InstrumentException.Kind.REFUSED) {
          throw e;
        }
      }
    }
    return Optional.empty();
  }

  private static List<RegisterWindow> candidates(Register register) {
    Register.Table own = register.table();
    Register.Table other =
        own == Register.Table.INPUT ? Register.Table.HOLDING : Register.Table.INPUT;
    List<RegisterWindow> windows = new ArrayList<>();
    for (Register.Table table : List.of(own, other)) {
      for (int[] around : AROUND) {
        int first = Math.max(0, register.address() + around[0]);
        int end = Math.min(ADDRESSES, register.address() + around[1]);
        if (first < end) {
          windows.add(new RegisterWindow(table, first, end - first));
        }
      }
    }
    return windows.stream().distinct().toList();
  }

  Reading<List<Integer>> read(ModbusInstrument instrument, Deadline deadline)
      throws InstrumentException {
    return instrument.peek(table, first, count, deadline);
  }
}
