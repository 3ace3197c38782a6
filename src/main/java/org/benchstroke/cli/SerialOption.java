package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.PortName;

/** Which lines of a simulated bench are played on serial ports: "LINE=PORT" or "LINE=PORT,NEAR". */
final class SerialOption {
  private static final Pattern WRITTEN =
      Pattern.compile("\\s*([^=]*[^=\\s])\\s*=\\s*([^,]*[^,\\s])\\s*(?:,\\s*(\\S.*?)\\s*)?");

  private final SimulatedBench bench;

  SerialOption(SimulatedBench bench) {
    this.bench = bench;
  }

  List<SerialPlace> places(List<String> values) throws WrongRequest {
    List<SerialPlace> places = new ArrayList<>();
    for (String value : values) {
      SerialPlace place = place(value);
      if (places.stream().anyMatch(other -> other.written().equals(place.written()))) {
        throw new WrongRequest("--serial: \"" + value + "\" names a line a second time");
      }
      places.add(place);
    }
    return places;
  }

  private SerialPlace place(String value) throws WrongRequest {
    Matcher found = WRITTEN.matcher(value);
    if (!found.matches()) {
      throw new WrongRequest(
          "--serial: found \"" + value + "\", allowed is LINE=PORT or LINE=PORT,NEAR");
    }
    Endpoint.Serial written =
        bench
            .serialLine(found.group(1))
            .orElseThrow(
                () ->
                    new WrongRequest(
                        "--serial: the bench file has no [[line]] named \""
                            + found.group(1)
                            + "\" on a serial port; name one with --bench"));
    PortName near = found.group(3) == null ? written.port() : port(found.group(3));
    return new SerialPlace(written, port(found.group(2)), near);
  }

  /** A port may be written as in a bench file, or by its path alone. */
  private static PortName port(String text) {
    return PortName.parse(text).orElseGet(() -> new PortName.Named(text));
  }
}
