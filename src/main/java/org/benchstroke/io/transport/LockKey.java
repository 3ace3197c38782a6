package org.benchstroke.io.transport;

import java.io.IOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/** What two ways of writing one address have in common. Stateless. */
final class LockKey {
  private LockKey() {}

  /** The key of an endpoint; empty for a display, which has no port. */
  static Optional<String> of(Endpoint endpoint) {
    if (endpoint instanceof Endpoint.Tcp tcp) {
      return Optional.of("tcp " + host(tcp.host()) + " " + tcp.port());
    }
    return endpoint instanceof Endpoint.Serial serial
        ? Optional.of("serial " + device(serial.port()))
        : Optional.empty();
  }

  private static String host(String written) {
    try {
      return InetAddress.getByName(written).getHostAddress();
    } catch (UnknownHostException e) {
      // Then nobody reaches it; the word will do.
      return written.toLowerCase(Locale.ROOT);
    }
  }

  private static String device(PortName port) {
    try {
      return real(
          port instanceof PortName.Device named
              ? named.bare()
              : SerialPorts.path((PortName.Usb) port, SerialPorts.list()));
    } catch (LinkException e) {
      // It is not plugged in, or not the only one of its kind: opening it says so.
      return port.text().toLowerCase(Locale.ROOT);
    }
  }

  /** A link in {@code /dev/serial/by-id} is the device that it points to. */
  private static String real(String name) {
    try {
      Path path = Path.of(name);
      Path whole = path.isAbsolute() ? path : Path.of("/dev").resolve(path);
      return Files.exists(whole) ? whole.toRealPath().toString() : name;
    } catch (IOException | InvalidPathException e) {
      return name;
    }
  }
}
