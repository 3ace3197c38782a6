package org.benchstroke.io.transport;

import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Which serial port is meant. Immutable. */
public sealed interface PortName {
  /** What a person may write, for messages. */
  String ALLOWED =
      "\"serial:/dev/ttyUSB0\", \"serial:COM3\", \"usb:9999:0001\" (vendor and product, in"
          + " hexadecimal) or \"usb:9999:0001:A12345\" (and serial number)";

  Pattern NAMED = Pattern.compile("serial:(\\S(?:.*\\S)?)");
  Pattern USB = Pattern.compile("usb:([0-9A-Fa-f]{4}):([0-9A-Fa-f]{4})(?::(\\S(?:.*\\S)?))?");

  /** The port as a bench file writes it. */
  String text();

  /**
   * A port by its system's name.
   *
   * @param name a name or a path: "COM3", "ttyUSB0", "/dev/serial/by-id/…"
   */
  record Device(String name) implements PortName {
    private static final String DEVICES = "/dev/";

    @Override
    public String text() {
      return "serial:" + name;
    }

    /** Whether both mean the same port, as far as the names tell. */
    boolean same(Device other) {
      return bare().equals(other.bare());
    }

    /** Without the folder of devices; a name of Windows in capitals. */
    String bare() {
      boolean windows = name.toUpperCase(Locale.ROOT).matches("COM[0-9]+");
      String upper = windows ? name.toUpperCase(Locale.ROOT) : name;
      return upper.startsWith(DEVICES) ? upper.substring(DEVICES.length()) : upper;
    }
  }

  /**
   * A port by what its USB adapter says of itself, wherever it is plugged in.
   *
   * @param vendor 0..0xFFFF
   * @param product 0..0xFFFF
   * @param serialNumber needed where several of the kind are plugged in
   */
  record Usb(int vendor, int product, Optional<String> serialNumber) implements PortName {
    public Usb {
      if ((vendor | product) >>> 16 != 0) {
        throw new IllegalArgumentException("USB numbers are 0 to 0xFFFF");
      }
    }

    @Override
    public String text() {
      return "usb:" + ids(vendor, product) + serialNumber.map(number -> ":" + number).orElse("");
    }
  }

  /** Whether two names mean the same port, as far as the names tell. */
  static boolean same(PortName a, PortName b) {
    if (a instanceof Device one && b instanceof Device other) {
      return one.same(other);
    }
    return a.equals(b);
  }

  /** Reads an address; empty if it is none of a serial port. */
  static Optional<PortName> parse(String address) {
    Matcher named = NAMED.matcher(address);
    if (named.matches()) {
      return Optional.of(new Device(named.group(1)));
    }
    Matcher usb = USB.matcher(address);
    if (usb.matches()) {
      return Optional.of(
          new Usb(
              HexFormat.fromHexDigits(usb.group(1)),
              HexFormat.fromHexDigits(usb.group(2)),
              Optional.ofNullable(usb.group(3))));
    }
    return Optional.empty();
  }

  /** "9999:0001". */
  static String ids(int vendor, int product) {
    return String.format(Locale.ROOT, "%04x:%04x", vendor, product);
  }
}
