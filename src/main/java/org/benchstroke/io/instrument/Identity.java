package org.benchstroke.io.instrument;

import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Who an instrument says it is. A field that it does not tell is empty.
 *
 * @param maker the maker's name
 * @param model the model
 * @param serial the serial number
 * @param firmware the firmware level
 * @param raw the reply as it came
 */
public record Identity(String maker, String model, String serial, String firmware, String raw) {
  /** For people: what it tells of itself, "Example Instruments, LS24, serial number 900101". */
  public String words() {
    return Stream.of(maker, model, serial.isEmpty() ? "" : "serial number " + serial)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining(", "));
  }
}
