package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;

/**
 * Which lines of a station's bench are played on serial ports: "LINE=PORT" or "LINE=PORT,NEAR". Of
 * several stations each has ports of its own, numbered as its files are: PORT-1, NEAR-1.
 */
final class SerialOption {
  private static final Pattern WRITTEN =
      Pattern.compile("\\s*([^=]*[^=\\s])\\s*=\\s*([^,]*[^,\\s])\\s*(?:,\\s*(\\S.*?)\\s*)?");

  private final SimulatedBench bench;
  private final int station;
  private final boolean several;

  /**
   * For one station.
   *
   * @param bench what it plays
   * @param station its number, from 1
   * @param of how many stations there are
   */
  SerialOption(SimulatedBench bench, int station, int of) {
    this.bench = bench;
    this.station = station;
    this.several = of > 1;
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
    return new SerialPlace(written, port(found.group(2)), near(found, written));
  }

  private PortName near(Matcher found, Endpoint.Serial written) throws WrongRequest {
    if (found.group(3) != null) {
      return port(found.group(3));
    }
    if (several) {
      throw new WrongRequest(
          "--serial: found \""
              + found.group()
              + "\", allowed with several stations is LINE=PORT,NEAR: they can't all be reached at "
              + written.text());
    }
    return written.port();
  }

  /** A port may be written as in a bench file, or by its path alone. */
  private PortName port(String text) throws WrongRequest {
    PortName named = PortName.parse(text).orElseGet(() -> new PortName.Device(text));
    if (!several) {
      return named;
    }
    if (named instanceof PortName.Device one) {
      return new PortName.Device(one.name() + "-" + station);
    }
    throw new WrongRequest(
        "--serial: found \""
            + text
            + "\", which is one adapter; with several stations allowed are names that can take a"
            + " number: \"far\" for far-1, far-2 and so on");
  }
}
