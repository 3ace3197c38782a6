package org.benchstroke.io.transport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Names of ports and what errors say; the ports are invented. */
class SerialPortsTest {
  private static final List<SerialPorts.Found> THERE =
      List.of(
          new SerialPorts.Found("/dev/ttyS0", "", "", "", ""),
          new SerialPorts.Found("/dev/ttyUSB0", "Two-wire adapter", "9999:0001", "A1", "Invented"),
          new SerialPorts.Found("/dev/ttyUSB1", "Two-wire adapter", "9999:0001", "A2", "Invented"),
          new SerialPorts.Found("/dev/ttyACM0", "Bench box", "9998:00ab", "", ""));

  private static PortName.Usb usb(String address) {
    return (PortName.Usb) PortName.parse(address).orElseThrow();
  }

  @ParameterizedTest
  @CsvSource({
    "usb:9999:0001:A2, /dev/ttyUSB1",
    "usb:9998:00AB, /dev/ttyACM0",
  })
  void aUsbPortIsFoundByWhatItSaysOfItself(String address, String path) throws LinkException {
    assertThat(SerialPorts.path(usb(address), THERE)).isEqualTo(path);
  }

  @Test
  void severalThatFitAreNamed() {
    assertThatThrownBy(() -> SerialPorts.path(usb("usb:9999:0001"), THERE))
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("fits several ports: /dev/ttyUSB0 (Two-wire adapter, USB 9999:0001,")
        .hasMessageContaining("serial number A2)")
        .hasMessageContaining("add the serial number");
  }

  @Test
  void noneThatFitsNamesAllThere() {
    assertThatThrownBy(() -> SerialPorts.path(usb("usb:9999:0001:A3"), THERE))
        .hasMessageStartingWith("there is no port usb:9999:0001:A3; those there: /dev/ttyS0, ")
        .hasMessageEndingWith("/dev/ttyACM0 (Bench box, USB 9998:00ab)");
    assertThatThrownBy(() -> SerialPorts.path(usb("usb:9999:0001"), List.of()))
        .hasMessageEndingWith("this system lists no serial port");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "serial:/dev/ttyUSB0",
        "serial:COM3",
        "usb:9999:0001",
        "usb:9999:0001:A 1:2",
      })
  void anAddressReadsBackAsItWasWritten(String address) {
    assertThat(PortName.parse(address).orElseThrow().text()).isEqualTo(address);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "serial:",
        "serial: COM3",
        "COM3",
        "usb:999:0001",
        "usb:9999",
        "usb:9999:00g1"
      })
  void otherTextIsNoPort(String address) {
    assertThat(PortName.parse(address)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "serial:/dev/ttyUSB0, serial:ttyUSB0, true",
    "serial:COM3, serial:com3, true",
    "serial:/dev/ttyUSB0, serial:/dev/ttyUSB1, false",
    "usb:9999:0001:a, usb:9999:0001:b, false",
    "usb:9999:ABCD, usb:9999:abcd, true",
    "usb:9999:0001, serial:ttyUSB0, false",
  })
  void namesOfOnePort(String a, String b, boolean same) {
    assertThat(PortName.same(PortName.parse(a).orElseThrow(), PortName.parse(b).orElseThrow()))
        .isEqualTo(same);
  }

  @ParameterizedTest
  @CsvSource({
    "13, false, add the user to the group dialout",
    "16, false, in use by another program",
    "5, true, in use by another program",
    "5, false, does not answer",
    "22, false, 'does not take 19200 baud, 8 data bits, even parity, 1 stop bit'",
    "25, false, is not a serial port",
    "99, false, error 99",
  })
  void whatTheSystemsNumberMeans(int number, boolean windows, String words) {
    assertThat(SerialFault.words(number, windows, SerialSettings.USUAL)).contains(words);
  }

  @ParameterizedTest
  @CsvSource({
    // MODBUS over Serial Line V1.02, 2.5.1: a character is 11 bits; 1.5 and 3.5 of them are 0.75
    // and 1.75 ms above 19200 baud. From memory.
    "19200, 8, EVEN, ONE, 11, 572917",
    "9600, 8, NONE, ONE, 10, 1041667",
    "115200, 7, ODD, TWO, 11, 95486",
    "300, 5, NONE, ONE_AND_A_HALF, 7.5, 25000000",
  })
  void aCharacterTakesItsTime(
      int speed,
      int dataBits,
      SerialSettings.Parity parity,
      SerialSettings.StopBits stopBits,
      double bits,
      long nanos) {
    SerialSettings settings =
        new SerialSettings(
            speed, dataBits, parity, stopBits, SerialSettings.FlowControl.NONE, Optional.empty());
    assertThat(settings.bitsPerCharacter()).isEqualTo(bits);
    assertThat(settings.characterNanos()).isEqualTo(nanos);
  }

  @ParameterizedTest
  @CsvSource({
    "49, 8, ONE, a speed is 50 to 4000000 baud",
    "4000001, 8, ONE, a speed is 50 to 4000000 baud",
    "9600, 4, ONE, 5 to 8 data bits",
    "9600, 9, ONE, 5 to 8 data bits",
    "9600, 8, ONE_AND_A_HALF, 1.5 stop bits do not go with 8",
    "9600, 5, TWO, 2.0 stop bits do not go with 5",
  })
  void impossibleSettingsAreRefused(
      int speed, int dataBits, SerialSettings.StopBits stopBits, String why) {
    assertThatThrownBy(
            () ->
                new SerialSettings(
                    speed,
                    dataBits,
                    SerialSettings.Parity.NONE,
                    stopBits,
                    SerialSettings.FlowControl.NONE,
                    Optional.empty()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(why);
  }
}
