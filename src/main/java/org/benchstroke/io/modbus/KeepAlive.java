package org.benchstroke.io.modbus;

import java.util.List;

/**
 * What an instrument with a watchdog wants to hear, so that it goes to its own safe value when the
 * program dies. Immutable.
 *
 * @param register a coil or a holding register
 * @param periodSeconds how often it is written, s of wall time
 * @param values what is written, one after the other and then from the start: one value, or two
 *     that alternate
 */
public record KeepAlive(Register register, double periodSeconds, List<Double> values) {
  public KeepAlive {
    values = List.copyOf(values);
    if (values.isEmpty()) {
      throw new IllegalArgumentException("a keep-alive register needs a value");
    }
  }
}
