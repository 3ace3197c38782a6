package org.benchstroke.io.transport;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Where an instrument is reached. Immutable. */
public sealed interface Endpoint {
  /** The endpoint as a bench file writes it. */
  String text();

  /**
   * A TCP server.
   *
   * @param host name or address
   * @param port 1..65535
   */
  record Tcp(String host, int port) implements Endpoint {
    private static final Pattern WRITTEN = Pattern.compile("tcp://([A-Za-z0-9._-]+):([0-9]{1,5})");

    public Tcp {
      if (port < 1 || port > 65535) {
        throw new IllegalArgumentException("a TCP port is 1 to 65535, not " + port);
      }
    }

    /** Reads "tcp://host:port"; empty if it is none, or has no such port. */
    public static Optional<Tcp> parse(String address) {
      Matcher written = WRITTEN.matcher(address);
      if (!written.matches()) {
        return Optional.empty();
      }
      int port = Integer.parseInt(written.group(2));
      return port >= 1 && port <= 65535
          ? Optional.of(new Tcp(written.group(1), port))
          : Optional.empty();
    }

    @Override
    public String text() {
      return "tcp://" + host + ":" + port;
    }
  }

  /**
   * A serial port.
   *
   * @param port which one
   * @param settings how its line is set
   */
  record Serial(PortName port, SerialSettings settings) implements Endpoint {
    @Override
    public String text() {
      return port.text();
    }
  }

  /** No port: a person reads the instrument's display. No link can be opened to it. */
  record Display() implements Endpoint {
    @Override
    public String text() {
      return "its display";
    }
  }
}
