package org.benchstroke.acceptance;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.transport.Endpoint;

/** The benches of the fault matrix, and how their requests and replies look on the wire. */
enum FaultyRequest {
  SCPI_SOURCE(Wire.SCPI, "source"),
  SCPI_LOOP(Wire.SCPI, "loop"),
  TCP_POSITION(Wire.TCP, "position"),
  TCP_SWITCHES(Wire.TCP, "switches"),
  TCP_STEM(Wire.TCP, "stem"),
  RTU_SOURCE(Wire.RTU, "source"),
  RTU_POSITION(Wire.RTU, "position"),
  RTU_SWITCHES(Wire.RTU, "switches"),
  RTU_STEM(Wire.RTU, "stem"),
  LINE_SOURCE(Wire.LINE, "source"),
  LINE_LOOP(Wire.LINE, "loop"),
  LINE_POSITION(Wire.LINE, "position"),
  LINE_SWITCHES(Wire.LINE, "switches"),
  LINE_STEM(Wire.LINE, "stem");

  /** What is spoken. */
  enum Wire {
    SCPI,
    TCP,
    RTU,
    LINE
  }

  private static final Path RTU_BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");
  private static final Path LINE_BENCH = Path.of("demo-data/benches/line-bench.toml");

  final Wire wire;
  final String role;

  FaultyRequest(Wire wire, String role) {
    this.wire = wire;
    this.role = role;
  }

  boolean source() {
    return role.equals("source");
  }

  /** A sound unit with an angle reference. */
  VirtualBench bench(String unit) {
    return switch (wire) {
      case SCPI, TCP -> VirtualBench.with(withStem(VirtualBench.simulation(unit)));
      case RTU -> VirtualBench.with(unit, RTU_BENCH);
      case LINE -> VirtualBench.with(unit, LINE_BENCH);
    };
  }

  private static Simulation withStem(Simulation s) {
    return new Simulation(
        s.name(), s.shows(), s.unitTypeFile(), s.unitType(), s.seed(), true, s.parameters());
  }

  /** Whether a request's reply is the one to spoil; of a SCPI setting the look into the queue. */
  boolean is(Endpoint endpoint, byte[] request) {
    String text = text(request);
    return switch (this) {
      case SCPI_SOURCE -> endpoint.equals(BuiltInBench.SOURCE) && text.startsWith("SYST");
      case SCPI_LOOP -> endpoint.equals(BuiltInBench.LOOP_METER) && text.startsWith("MEAS");
      case TCP_POSITION -> modbus(endpoint) && request[6] == 1 && request[7] == 4;
      case TCP_SWITCHES -> modbus(endpoint) && request[6] == 1 && request[7] == 2;
      case TCP_STEM -> modbus(endpoint) && request[6] == 2 && request[7] == 4;
      case RTU_SOURCE -> sets(endpoint, request);
      case RTU_POSITION -> request[0] == 1 && request[1] == 4;
      case RTU_SWITCHES -> request[0] == 1 && request[1] == 2;
      case RTU_STEM -> request[0] == 2 && request[1] == 4;
      case LINE_SOURCE -> sets(endpoint, request);
      case LINE_LOOP -> text.startsWith("MEAS?");
      case LINE_POSITION -> text.startsWith("#A1");
      case LINE_SWITCHES -> text.startsWith("#D");
      case LINE_STEM -> text.startsWith("#A2");
    };
  }

  /** Whether a request sets the source's current. */
  boolean sets(Endpoint endpoint, byte[] request) {
    return switch (wire) {
      case SCPI, TCP ->
          endpoint.equals(BuiltInBench.SOURCE) && text(request).startsWith("SOURce:CURRent ");
      case RTU ->
          request[0] == 3 && (request[1] == 6 || request[1] == 16) && request[2] + request[3] == 0;
      case LINE -> text(request).matches("OUT \\d(?s:.*)");
    };
  }

  private static boolean modbus(Endpoint endpoint) {
    return endpoint.equals(BuiltInBench.MODBUS);
  }

  private static String text(byte[] bytes) {
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  /** The reply with another byte at a place, and with the check that fits it. */
  byte[] with(byte[] reply, int at, int value) {
    byte[] other = reply.clone();
    other[at] = (byte) value;
    return wire == Wire.RTU ? sealed(other) : other;
  }

  /** The reply of an instrument that could not do it. */
  byte[] refusal(byte[] reply) {
    return switch (wire) {
      case SCPI -> "-200,\"Execution error\"\n".getBytes(StandardCharsets.US_ASCII);
      case TCP -> {
        byte[] refused = Arrays.copyOf(reply, 9);
        refused[5] = 3;
        refused[7] |= (byte) 0x80;
        refused[8] = 4;
        yield refused;
      }
      case RTU -> sealed(new byte[] {reply[0], (byte) (reply[1] | 0x80), 4, 0, 0});
      case LINE ->
          (source() || role.equals("loop") ? "ERR 5\r\n" : "#E5*" + xor("E5") + "\r\n")
              .getBytes(StandardCharsets.US_ASCII);
    };
  }

  private static String xor(String text) {
    int sum = text.chars().reduce(0, (a, b) -> a ^ b);
    return String.format("%02X", sum);
  }

  /** An old reply under this request's number. */
  byte[] renumbered(byte[] old, byte[] reply) {
    byte[] held = old.clone();
    if (wire == Wire.TCP) {
      System.arraycopy(reply, 0, held, 0, 2);
    }
    return held;
  }

  /** MODBUS over Serial Line V1.02, 6.2.2: the CRC, low byte first. */
  private static byte[] sealed(byte[] frame) {
    int crc = 0xFFFF;
    for (int i = 0; i < frame.length - 2; i++) {
      crc ^= frame[i] & 0xFF;
      for (int bit = 0; bit < 8; bit++) {
        crc = (crc & 1) == 0 ? crc >> 1 : crc >> 1 ^ 0xA001;
      }
    }
    frame[frame.length - 2] = (byte) crc;
    frame[frame.length - 1] = (byte) (crc >> 8);
    return frame;
  }

  /** All that are asked during motion, or at rest, or at a command. */
  static List<FaultyRequest> all() {
    return List.of(values());
  }
}
