package org.benchstroke.bench;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.transport.Endpoint;

/** Reads where an instrument is reached. Stateless. */
final class AddressReader {
  private static final Pattern TCP = Pattern.compile("tcp://([A-Za-z0-9._-]+):([0-9]{1,5})");
  private static final Endpoint NOWHERE = new Endpoint.Tcp("localhost", 1);

  private AddressReader() {}

  static Endpoint read(TomlSection section) {
    String address = section.text("address");
    Matcher tcp = TCP.matcher(address);
    if (tcp.matches()) {
      int port = Integer.parseInt(tcp.group(2));
      if (port >= 1 && port <= 65535) {
        return new Endpoint.Tcp(tcp.group(1), port);
      }
    }
    if (!address.isEmpty()) {
      section.mistake(
          "address", "found \"" + address + "\", allowed is \"tcp://host:port\", port 1 to 65535");
    }
    return NOWHERE;
  }
}
