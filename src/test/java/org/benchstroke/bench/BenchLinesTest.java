package org.benchstroke.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.io.transport.SerialSettings;
import org.benchstroke.io.transport.SerialSettings.FlowControl;
import org.benchstroke.io.transport.SerialSettings.Parity;
import org.benchstroke.io.transport.SerialSettings.Rs485;
import org.benchstroke.io.transport.SerialSettings.StopBits;
import org.junit.jupiter.api.Test;

/** Lines in a bench file: what they become, and each mistake once, with its line. */
class BenchLinesTest {
  private static final String TOP =
      """
      kind = "bench"
      format = 1
      name = "bench (invented)"
      place = "here"
      sample_period_ms = 100
      """;

  private static String instrument(String reached, String speaks) {
    boolean scpi = speaks.equals("scpi");
    return """
    [[instrument]]
    name = "%1$s"
    roles = [%2$s]
    speaks = "%1$s"
    %3$s
    reply_timeout_ms = 500
    serial = "1"
    certificate = "C-1"
    calibrated = 2026-04-11
    due = 2027-04-11
    """
            .formatted(speaks, scpi ? "\"signal source\"" : "\"position transmitter\"", reached)
        + (scpi
            ? """
            [instrument.signal_source]
            accuracy = "2 µA"
            resolution_mA = 0.001
            min_mA = 0.0
            max_mA = 24.0
            """
            : """
            unit_id = 1
            [instrument.position_transmitter]
            table = "input"
            address = 0
            type = "i16"
            unit = "mA"
            accuracy = "2 µA"
            resolution_mA = 0.001
            """);
  }

  private static final String OWN = instrument("address = \"tcp://192.0.2.1:502\"", "modbus tcp");

  private static String line(String name, String rest) {
    return "[[line]]\nname = \"" + name + "\"\n" + rest + "\n";
  }

  private static BenchFile read(String lines, String... instruments) throws FileMistakes {
    return BenchFileReader.read(
        TomlDocument.parse("bench.toml", TOP + lines + String.join("", instruments)));
  }

  private static List<String> mistakes(String lines, String... instruments) {
    FileMistakes mistakes =
        catchThrowableOfType(FileMistakes.class, () -> read(lines, instruments));
    return mistakes.mistakes().stream().map(Mistake::text).toList();
  }

  private static Endpoint endpoint(String line) throws FileMistakes {
    return read(line("a", line), instrument("line = \"a\"", "scpi"), OWN)
        .instruments()
        .get(0)
        .endpoint();
  }

  @Test
  void aPortAloneIsSetAsModbusHasIt() throws FileMistakes {
    assertThat(endpoint("address = \"serial:/dev/ttyUSB0\""))
        .isEqualTo(new Endpoint.Serial(new PortName.Device("/dev/ttyUSB0"), SerialSettings.USUAL));
    assertThat(SerialSettings.USUAL.text())
        .isEqualTo("19200 baud, 8 data bits, even parity, 1 stop bit");
  }

  @Test
  void everySettingIsRead() throws FileMistakes {
    Endpoint read =
        endpoint(
            """
            address = "usb:9999:0001:A12345"
            speed = 115200
            data_bits = 5
            parity = "mark"
            stop_bits = 1.5
            flow_control = "xon/xoff"
            rs485 = { rts_active_high = false, before_send_us = 100, after_send_us = 2000, termination = true, receive_during_send = true }
            """);
    assertThat(read)
        .isEqualTo(
            new Endpoint.Serial(
                new PortName.Usb(0x9999, 0x0001, Optional.of("A12345")),
                new SerialSettings(
                    115200,
                    5,
                    Parity.MARK,
                    StopBits.ONE_AND_A_HALF,
                    FlowControl.XON_XOFF,
                    Optional.of(new Rs485(false, 100, 2000, true, true)))));
  }

  @Test
  void aTcpLineIsSharedLikeAnAddress() throws FileMistakes {
    BenchFile file =
        read(
            line("a", "address = \"tcp://192.0.2.1:5025\""),
            instrument("line = \"a\"", "scpi"),
            OWN);
    assertThat(file.instruments().get(0).endpoint()).isEqualTo(new Endpoint.Tcp("192.0.2.1", 5025));
  }

  @Test
  void anUnknownLineIsToldWithTheKnownOnes() {
    assertThat(
            mistakes(
                line("a", "address = \"serial:COM3\"") + line("b", "address = \"serial:COM4\""),
                instrument("line = \"c\"", "scpi"),
                OWN))
        .containsExactly(
            "bench.toml:7: line[1].name: no instrument is on the line \"a\"; write line = \"a\""
                + " where one is, or leave this [[line]] out",
            "bench.toml:10: line[2].name: no instrument is on the line \"b\"; write line = \"b\""
                + " where one is, or leave this [[line]] out",
            "bench.toml:16: instrument[1].line: there is no line \"c\"; known: \"a\", \"b\"");
    assertThat(mistakes("", instrument("line = \"c\"", "scpi"), OWN))
        .containsExactly(
            "bench.toml:10: instrument[1].line: there is no line \"c\"; add a [[line]] with that"
                + " name");
  }

  @Test
  void bothOrNeitherOfLineAndAddressIsAMistake() {
    String port = line("a", "address = \"serial:COM3\"");
    assertThat(
            mistakes(
                port, instrument("line = \"a\"\naddress = \"tcp://192.0.2.9:1\"", "scpi"), OWN))
        .containsExactly(
            "bench.toml:13: instrument[1].line: is given as well as an address; leave one of them"
                + " out");
    assertThat(mistakes("", instrument("", "scpi"), OWN))
        .containsExactly(
            "bench.toml:6: instrument[1].address: is missing; write address ="
                + " \"tcp://host:port\", or line = \"name of a [[line]]\"");
  }

  @Test
  void aPortWithoutALineIsToldToHaveOne() {
    assertThat(mistakes("", instrument("address = \"serial:COM3\"", "scpi"), OWN))
        .singleElement()
        .asString()
        .contains("\"serial:COM3\" is a serial port, which has settings; give it a [[line]]");
  }

  @Test
  void impossibleSettingsAreToldAllAtOnce() {
    assertThat(
            mistakes(
                line(
                    "a",
                    """
                    address = "serial:COM3"
                    speed = 12
                    data_bits = 9
                    parity = "maybe"
                    stop_bits = 3
                    flow_control = "yes"
                    rs485 = { rts_active_high = 1, before_send_us = -1, after_send = 1 }\
                    """),
                instrument("line = \"a\"", "scpi"),
                OWN))
        .satisfiesExactlyInAnyOrder(
            m -> assertThat(m).contains("line[1].speed: found 12, allowed is a whole number, 50"),
            m -> assertThat(m).contains("line[1].data_bits: found 9"),
            m -> assertThat(m).contains("line[1].parity: found \"maybe\""),
            m -> assertThat(m).contains("line[1].stop_bits: found 3, allowed is 1, 1.5 or 2"),
            m -> assertThat(m).contains("line[1].flow_control: found \"yes\""),
            m -> assertThat(m).contains("rts_active_high: found 1, allowed is true or false"),
            m -> assertThat(m).contains("before_send_us: found -1"),
            m -> assertThat(m).contains("after_send: is not known here"));
  }

  @Test
  void settingsThatDoNotGoTogetherAreToldAtTheirLine() {
    assertThat(
            mistakes(
                line(
                    "a",
                    "address = \"serial:COM3\"\nstop_bits = 1.5\nflow_control = \"rts/cts\"\n"
                        + "rs485 = {}"),
                instrument("line = \"a\"", "scpi"),
                OWN))
        .containsExactly(
            "bench.toml:9: line[1].stop_bits: 1.5 do not go with 8 data bits; 1.5 go with 5, 2 go"
                + " with 6 to 8, and 1 with all",
            "bench.toml:10: line[1].flow_control: \"rts/cts\" and rs485 both want the RTS signal;"
                + " leave one of them out");
  }

  @Test
  void serialKeysOnATcpLineAreMistakes() {
    assertThat(
            mistakes(
                line("a", "address = \"tcp://192.0.2.1:5025\"\nspeed = 9600\nparity = \"none\""),
                instrument("line = \"a\"", "scpi"),
                OWN))
        .containsExactly(
            "bench.toml:9: line[1].speed: goes with a serial port only; this line's address is"
                + " tcp://",
            "bench.toml:10: line[1].parity: goes with a serial port only; this line's address is"
                + " tcp://");
  }

  @Test
  void twoLinesOnOnePortAndTwoOfOneNameAreMistakes() {
    assertThat(
            mistakes(
                line("a", "address = \"serial:/dev/ttyUSB0\"")
                    + line("a", "address = \"serial:ttyUSB0\"\nspeed = 9600"),
                instrument("line = \"a\"", "scpi"),
                OWN))
        .containsExactly(
            "bench.toml:10: line[2].name: \"a\" is taken; give each line its own name",
            "bench.toml:11: line[2].address: is the port of the line \"a\" too; give all its"
                + " instruments that one line");
  }

  @Test
  void aLineCarriesOneLanguage() {
    assertThat(
            mistakes(
                line("a", "address = \"serial:COM3\""),
                instrument("line = \"a\"", "scpi"),
                instrument("line = \"a\"", "modbus tcp")))
        .satisfiesExactly(
            m -> assertThat(m).contains("speaks: \"modbus tcp\" needs a line with an address tcp"),
            m ->
                assertThat(m)
                    .contains(
                        "speaks: is \"modbus tcp\", but \"scpi\" is spoken on the line \"a\""));
  }

  @Test
  void anAddressThatIsNoneIsToldWithWhatIsAllowed() {
    assertThat(mistakes(line("a", "address = \"COM3\""), instrument("line = \"a\"", "scpi"), OWN))
        .singleElement()
        .asString()
        .startsWith("bench.toml:8: line[1].address: found \"COM3\", allowed is \"serial:")
        .contains("\"tcp://host:port\"");
  }
}
