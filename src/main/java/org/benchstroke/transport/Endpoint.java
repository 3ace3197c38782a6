package org.benchstroke.transport;

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
    public Tcp {
      if (port < 1 || port > 65535) {
        throw new IllegalArgumentException("a TCP port is 1 to 65535, not " + port);
      }
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
