package org.benchstroke.io.transport;

import java.util.List;

/**
 * What a system's error number means where a serial port could not be opened, and what to do.
 * Stateless.
 */
final class SerialFault {
  /**
   * Numbers of Linux ({@code asm-generic/errno-base.h}); the BSDs and macOS share the small ones.
   */
  private static final List<Integer> NO_PERMISSION = List.of(1, 13);

  private static final List<Integer> IN_USE = List.of(11, 16, 35);
  private static final List<Integer> GONE = List.of(2, 5, 6, 19);
  private static final int INVALID = 22;
  private static final int NO_TERMINAL = 25;

  /** The number of Windows for a port that another program holds. */
  private static final int WINDOWS_DENIED = 5;

  private SerialFault() {}

  /** The words for the number. */
  static String words(int number, boolean windows, SerialSettings settings) {
    if (windows && number == WINDOWS_DENIED) {
      return "it is in use by another program; close that one";
    }
    if (NO_PERMISSION.contains(number)) {
      return "this user may not use it; on Debian add the user to the group dialout (sudo adduser"
          + " \"$USER\" dialout), then log out and in again";
    }
    if (IN_USE.contains(number)) {
      return "it is in use by another program; close that one";
    }
    if (GONE.contains(number)) {
      return "the device does not answer; plug it in again";
    }
    if (number == INVALID) {
      return "it does not take "
          + settings.text()
          + "; check these against the port's manual (a pseudo-terminal knows 8 data bits without"
          + " parity)";
    }
    return number == NO_TERMINAL ? "it is not a serial port" : "the system's error " + number;
  }
}
