package org.benchstroke.acceptance;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.Simulation;

/**
 * What the fault matrix spoils: a protocol, and what an instrument that speaks it is asked for. It
 * knows the bench, and how requests and replies look on the wire.
 */
record FaultyRequest(Wire wire, Role role) {
  /** What is spoken. */
  enum Wire {
    SCPI,
    MODBUS_TCP,
    RTU,
    RTU_OVER_TCP,
    LINE;

    boolean modbus() {
      return this == MODBUS_TCP || framed();
    }

    /** Whether its frames are RTU's, with a CRC. */
    boolean framed() {
      return this == RTU || this == RTU_OVER_TCP;
    }
  }

  private static final List<Role> ROLES =
      List.of(
          Role.SIGNAL_SOURCE,
          Role.LOOP_METER,
          Role.POSITION_TRANSMITTER,
          Role.ANGLE_REFERENCE,
          Role.SWITCHES);
  private static final Path ONE_LINE = Path.of("src/test/resources/benches/one-rs485-line.toml");
  private static final Path LINE_BENCH = Path.of("demo-data/benches/line-bench.toml");
  private static final String SERIAL_LINE =
      """
      address = "serial:/dev/ttyUSB0"
      speed = 38400
      parity = "even"
      """;
  private static final String LOOP_UNIT =
      """
      [[instrument]]
      name = "loop meter"
      roles = ["loop meter"]
      speaks = "modbus rtu"
      line = "rs485"
      unit_id = 4
      reply_timeout_ms = 300
      serial = "5004"
      certificate = "C-5004"
      calibrated = 2026-01-15
      due = 2027-12-31
      [instrument.serial_number]
      table = "holding"
      address = 100
      type = "u32"
      """;

  /** Every role over every protocol; SCPI is spoken by sources and loop meters. */
  static List<FaultyRequest> all() {
    return Stream.of(Wire.values())
        .flatMap(wire -> ROLES.stream().map(role -> new FaultyRequest(wire, role)))
        .filter(at -> at.wire != Wire.SCPI || at.source() || at.loop())
        .toList();
  }

  boolean source() {
    return role == Role.SIGNAL_SOURCE;
  }

  boolean loop() {
    return role == Role.LOOP_METER;
  }

  /** Whether it is asked with each sample. */
  boolean sampled() {
    return !source() && !loop();
  }

  @Override
  public String toString() {
    return wire.name().toLowerCase(Locale.ROOT).replace('_', ' ') + " " + role.key();
  }

  /** A unit with the instruments of this protocol around it. */
  VirtualBench bench(Simulation unit) {
    return switch (wire) {
      case SCPI -> VirtualBench.with(unit);
      case LINE -> VirtualBench.with(unit, LINE_BENCH);
      case RTU -> VirtualBench.with(unit, "rtu.toml", oneLine());
      case RTU_OVER_TCP -> VirtualBench.with(unit, "over-tcp.toml", overTcp(oneLine()));
      case MODBUS_TCP ->
          VirtualBench.with(
              unit, "tcp.toml", overTcp(oneLine()).replace("modbus rtu", "modbus tcp"));
    };
  }

  /** The instrument that is asked, as its bench file calls it. */
  String instrument() {
    return switch (wire) {
      case SCPI -> source() ? "source" : "loop meter";
      case LINE -> source() || loop() ? "hand-held source" : "input box";
      default ->
          switch (role) {
            case SIGNAL_SOURCE -> "output module";
            case LOOP_METER -> "loop meter";
            case ANGLE_REFERENCE -> "angle reference";
            default -> "input module";
          };
    };
  }

  /** The bench on one line, with the loop meter in a unit of its own. */
  private static String oneLine() {
    try {
      String text = Files.readString(ONE_LINE).replace("\"loop meter\", ", "");
      int from = text.indexOf("[instrument.loop_meter]");
      int to = text.indexOf("[instrument.switches.closed]");
      String map = text.substring(from, to);
      return text.replace(map, "") + "\n" + LOOP_UNIT + map;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String overTcp(String bench) {
    return bench.replace(SERIAL_LINE, "address = \"tcp://192.0.2.30:4001\"\n");
  }

  /** Whether a request's reply is the one to spoil; of a SCPI setting the look into the status. */
  boolean is(Endpoint endpoint, byte[] request) {
    String text = text(request);
    return switch (wire) {
      case SCPI ->
          source()
              ? endpoint.equals(BuiltInBench.SOURCE) && text.startsWith("*STB?")
              : endpoint.equals(BuiltInBench.LOOP_METER) && text.startsWith("MEAS");
      case LINE -> source() ? sets(endpoint, request) : text.startsWith(question());
      default ->
          switch (role) {
            case SIGNAL_SOURCE -> sets(endpoint, request);
            case LOOP_METER -> asks(request, 4, 4);
            case ANGLE_REFERENCE -> asks(request, 2, 4);
            case SWITCHES -> asks(request, 1, 2);
            // Not the counter beside it.
            default -> asks(request, 1, 4) && request[head() + 3] == 0;
          };
    };
  }

  private String question() {
    return switch (role) {
      case LOOP_METER -> "MEAS?";
      case ANGLE_REFERENCE -> "#A2";
      case SWITCHES -> "#D";
      default -> "#A1";
    };
  }

  /** Whether a request sets the source's current. */
  boolean sets(Endpoint endpoint, byte[] request) {
    int at = head();
    return switch (wire) {
      case SCPI ->
          endpoint.equals(BuiltInBench.SOURCE) && text(request).startsWith("SOURce:CURRent ");
      case LINE -> text(request).matches("OUT \\d(?s:.*)");
      default ->
          (asks(request, 3, 6) || asks(request, 3, 16)) && request[at + 2] + request[at + 3] == 0;
    };
  }

  private boolean asks(byte[] request, int unit, int function) {
    return request[head()] == unit && request[head() + 1] == function;
  }

  /** Where a Modbus message has its unit id. */
  int head() {
    return wire == Wire.MODBUS_TCP ? 6 : 0;
  }

  private static String text(byte[] bytes) {
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  /** The reply with another byte at a place, and with the check that fits it. */
  byte[] with(byte[] reply, int at, int value) {
    byte[] other = reply.clone();
    other[at] = (byte) value;
    return wire.framed() ? sealed(other) : other;
  }

  /** The reply of an instrument that could not do it, in a language without exceptions. */
  byte[] refusal(byte[] reply) {
    String text =
        wire == Wire.SCPI
            ? "4;-200,\"Execution error\"\n"
            : !sampled() ? "ERR 5\r\n" : "#E5*" + xor("E5") + "\r\n";
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  private static String xor(String text) {
    int sum = text.chars().reduce(0, (a, b) -> a ^ b);
    return String.format("%02X", sum);
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
}
