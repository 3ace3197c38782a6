package org.benchstroke.io.transport;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** The serial ports of this machine. Stateless, safe for any thread. */
public final class SerialPorts {
  private static final String UNKNOWN = "Unknown";

  private SerialPorts() {}

  /**
   * What the system knows of a port. A text that it does not know is empty.
   *
   * @param path to open it: "/dev/ttyUSB0", "COM3"
   * @param description what it calls itself
   * @param usb vendor and product, "9999:0001"; empty if it is no USB port
   * @param serialNumber of the USB adapter
   * @param manufacturer of the USB adapter, as it says
   */
  public record Found(
      String path, String description, String usb, String serialNumber, String manufacturer) {

    /** In one line, for messages. */
    public String text() {
      String adapter = usb.isEmpty() ? "" : "USB " + usb;
      String number = serialNumber.isEmpty() ? "" : "serial number " + serialNumber;
      String more =
          List.of(description, adapter, number).stream()
              .filter(part -> !part.isEmpty())
              .collect(Collectors.joining(", "));
      return more.isEmpty() ? path : path + " (" + more + ")";
    }

    boolean is(PortName.Usb wanted) {
      return usb.equals(PortName.ids(wanted.vendor(), wanted.product()))
          && wanted.serialNumber().map(serialNumber::equals).orElse(true);
    }
  }

  /**
   * The ports that the system lists, by path. A pseudo-terminal is never listed.
   *
   * @throws LinkException if serial ports can't be used on this system
   */
  public static List<Found> list() throws LinkException {
    SerialLibrary.load();
    List<Found> found = new ArrayList<>();
    for (SerialPort port : SerialPort.getCommPorts()) {
      boolean usb = port.getVendorID() > 0;
      found.add(
          new Found(
              port.getSystemPortPath(),
              known(port.getPortDescription()),
              usb ? PortName.ids(port.getVendorID(), port.getProductID()) : "",
              known(port.getSerialNumber()),
              known(port.getManufacturer())));
    }
    found.sort(Comparator.comparing(Found::path));
    return found;
  }

  /** The port that is meant, not yet opened. */
  static SerialPort named(PortName name) throws LinkException {
    SerialLibrary.load();
    String path =
        name instanceof PortName.Device named ? named.name() : path((PortName.Usb) name, list());
    try {
      return SerialPort.getCommPort(path);
    } catch (SerialPortInvalidPortException e) {
      throw none(name, list());
    }
  }

  /** The path of the one USB port that is meant. */
  static String path(PortName.Usb wanted, List<Found> there) throws LinkException {
    List<Found> fitting = there.stream().filter(port -> port.is(wanted)).toList();
    if (fitting.isEmpty()) {
      throw none(wanted, there);
    }
    if (fitting.size() > 1) {
      throw new LinkException(
          LinkException.Kind.PORT_GONE,
          wanted.text()
              + " fits several ports: "
              + texts(fitting)
              + "; add the serial number, usb:vendor:product:number, or give the path");
    }
    return fitting.get(0).path();
  }

  /** The message where a port is missing. */
  static LinkException none(PortName name, List<Found> there) {
    String others =
        there.isEmpty() ? "this system lists no serial port" : "those there: " + texts(there);
    return new LinkException(
        LinkException.Kind.PORT_GONE, "there is no port " + name.text() + "; " + others);
  }

  private static String texts(List<Found> ports) {
    return ports.stream().map(Found::text).collect(Collectors.joining(", "));
  }

  private static String known(String text) {
    return Optional.ofNullable(text)
        .map(String::strip)
        .filter(known -> !known.equals(UNKNOWN))
        .orElse("");
  }
}
