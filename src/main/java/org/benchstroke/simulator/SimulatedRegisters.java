package org.benchstroke.simulator;

import java.util.Arrays;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleSupplier;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.Registers;

/** Puts values into the registers that a bench file names, coded as it says. Stateless. */
final class SimulatedRegisters {
  private SimulatedRegisters() {}

  /** Adds a value that is read; one beyond what the register can hold stands at its end. */
  static void reading(RegisterMap map, Register register, DoubleSupplier value) {
    map.add(
        register.table(),
        register.address(),
        register.type().words(),
        () -> words(register, value.getAsDouble()));
  }

  /**
   * Adds a value that is written. It is taken once its last register has been written; what was
   * written stands there to be read back.
   *
   * @param first the value that stands there at first
   * @param taker is given each value
   */
  static void setting(RegisterMap map, Register register, double first, DoubleConsumer taker) {
    int[] words = words(register, first);
    map.add(
        register.table(),
        register.address(),
        words.length,
        () -> words,
        (index, written) -> {
          words[index] = written;
          if (index == words.length - 1) {
            taker.accept(value(register, words));
          }
        });
  }

  static int[] words(Register register, double value) {
    byte[] bytes = Registers.bytes(register, Registers.nearest(register, value));
    int[] words = new int[register.type().words()];
    Arrays.setAll(words, i -> ((bytes[2 * i] & 0xFF) << 8) | (bytes[2 * i + 1] & 0xFF));
    return words;
  }

  static double value(Register register, int[] words) {
    byte[] bytes = new byte[2 * words.length];
    for (int i = 0; i < words.length; i++) {
      bytes[2 * i] = (byte) (words[i] >> 8);
      bytes[2 * i + 1] = (byte) words[i];
    }
    return Registers.value(register, bytes);
  }
}
