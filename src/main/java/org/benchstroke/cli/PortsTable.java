package org.benchstroke.cli;

import java.util.List;
import org.benchstroke.io.transport.SerialPorts;

/** Serial ports as people read them. Stateless. */
final class PortsTable {
  private PortsTable() {}

  static void print(List<SerialPorts.Found> ports, Shown out) {
    if (ports.isEmpty()) {
      out.println("This system lists no serial port. Plug the adapter in and look again.");
    }
    for (SerialPorts.Found port : ports) {
      out.println(port.path());
      line(out, "address", "serial:" + port.path());
      if (!port.usb().isEmpty()) {
        line(out, "or", "usb:" + port.usb() + suffix(port.serialNumber()));
      }
      line(out, "description", port.description());
      line(out, "manufacturer", port.manufacturer());
      line(out, "serial number", port.serialNumber());
    }
  }

  private static String suffix(String serialNumber) {
    return serialNumber.isEmpty() ? "" : ":" + serialNumber;
  }

  private static void line(Shown out, String name, String value) {
    if (!value.isEmpty()) {
      out.printf("  %-14s %s%n", name, value);
    }
  }
}
