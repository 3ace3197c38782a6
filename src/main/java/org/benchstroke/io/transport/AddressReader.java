package org.benchstroke.io.transport;

import java.util.Optional;
import org.benchstroke.core.toml.TomlSection;

/** Reads where a line or an instrument is reached. Stateless. */
public final class AddressReader {
  /** What stands for an address that could not be read. */
  public static final Endpoint NOWHERE = new Endpoint.Tcp("localhost", 1);

  private static final String ALLOWED_TCP = "\"tcp://host:port\", port 1 to 65535";

  private AddressReader() {}

  /** The address of an instrument that has a connection of its own. */
  public static Endpoint own(TomlSection section) {
    String address = section.text("address");
    Optional<Endpoint.Tcp> tcp = Endpoint.Tcp.parse(address);
    if (tcp.isPresent()) {
      return tcp.get();
    }
    if (PortName.parse(address).isPresent()) {
      section.mistake(
          "address",
          "\""
              + address
              + "\" is a serial port, which has settings; give it a [[line]] and write line ="
              + " \"its name\" here instead");
    } else if (!address.isEmpty()) {
      section.mistake("address", "found \"" + address + "\", allowed is " + ALLOWED_TCP);
    }
    return NOWHERE;
  }

  /** The address of a line; its serial settings are read where it is a serial port. */
  public static Endpoint ofLine(TomlSection section) {
    String address = section.text("address");
    Optional<Endpoint.Tcp> tcp = Endpoint.Tcp.parse(address);
    if (tcp.isPresent()) {
      SerialKeys.refuse(section);
      return tcp.get();
    }
    Optional<PortName> port = PortName.parse(address);
    if (port.isEmpty() && !address.isEmpty()) {
      section.mistake(
          "address",
          "found \"" + address + "\", allowed is " + PortName.ALLOWED + ", or " + ALLOWED_TCP);
    }
    var settings = SerialKeys.read(section);
    return port.<Endpoint>map(name -> new Endpoint.Serial(name, settings)).orElse(NOWHERE);
  }
}
