package org.benchstroke.io.modbus;

import java.util.Optional;

/**
 * How a signal source over Modbus is told what to do. Immutable.
 *
 * @param several whether function 10 writes the current even where one register holds it
 * @param output the coil that switches the output on and off, if there is one
 */
public record SourceWiring(boolean several, Optional<Register> output) {
  /** Function 06 for one register, no output switch. */
  public static final SourceWiring PLAIN = new SourceWiring(false, Optional.empty());
}
