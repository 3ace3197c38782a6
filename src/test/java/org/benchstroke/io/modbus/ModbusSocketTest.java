package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.SocketPeer;
import org.benchstroke.io.transport.SystemLinks;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * Real sockets; the server is j2mod, whose frames and sockets share no code with ours, but whose
 * messages are in the program. {@code peers} has servers that share nothing.
 */
class ModbusSocketTest {
  private static final long MILLI = 1_000_000L;
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

  private final SystemClock clock = SystemClock.realTime();
  private final SimpleProcessImage image = new SimpleProcessImage(ModbusRig.UNIT);
  private ModbusSlave server;
  private Endpoint endpoint;

  @BeforeEach
  void serve() throws ModbusException, IOException {
    // 50.0, then 12.5 as floats (42480000 and 41480000), high word first.
    for (int word : new int[] {0x4248, 0x0000, 0x0000, 0x0000, 0x4148, 0x0000}) {
      image.addInputRegister(new SimpleInputRegister(word));
    }
    for (int i = 0; i < 14; i++) {
      image.addDigitalIn(new SimpleDigitalIn(i == 10 || i == 13));
    }
    for (int i = 0; i < 102; i++) {
      image.addRegister(new SimpleRegister(i == 101 ? 3003 : 0));
    }
    image.addDigitalOut(new SimpleDigitalOut(false));
    int port = freePort();
    server = ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 2, false, 0);
    server.addProcessImage(ModbusRig.UNIT, image);
    server.addProcessImage(18, new SimpleProcessImage(18));
    server.open();
    endpoint = new Endpoint.Tcp("127.0.0.1", port);
  }

  @AfterEach
  void stop() {
    ModbusSlaveFactory.close(server);
  }

  /** The server can't say which port it got, so that it must be told one. */
  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private ModbusInstrument instrument(Endpoint at) {
    return new ModbusInstrument("input module", line(at), ModbusRig.points(ModbusRig.SWITCHES));
  }

  private ModbusTcpLine line(Endpoint at) {
    return new ModbusTcpLine(new SystemLinks(), at, clock);
  }

  private Deadline in(long millis) {
    return Deadline.inWall(clock, millis * MILLI);
  }

  private InstrumentException failure(ModbusInstrument instrument, long millis) {
    return catchThrowableOfType(
        InstrumentException.class, () -> instrument.loopMeter().orElseThrow().read(in(millis)));
  }

  @Test
  void readsEveryRoleFromAnIndependentServer() throws InstrumentException {
    ModbusInstrument instrument = instrument(endpoint);
    assertThat(instrument.identify(in(2000)).orElseThrow().serial()).isEqualTo("3003");
    assertThat(instrument.loopMeter().orElseThrow().read(in(2000)).value().milliamps())
        .isCloseTo(12.5, within(1e-9));
    assertThat(instrument.angleReference().orElseThrow().read(in(2000)).value().degrees()).isZero();
    assertThat(instrument.positionTransmitter().orElseThrow().read(in(2000)).value().percent())
        .isCloseTo(287.5, within(1e-9));
    assertThat(instrument.switchReader().orElseThrow().read(in(2000)).value())
        .isEqualTo(
            Map.of(
                LimitSwitch.CLOSED, true,
                LimitSwitch.CLOSED_AUXILIARY, false,
                LimitSwitch.OPEN, true));
    instrument.disconnect();
  }

  @Test
  void switchesACoilOfAnIndependentServer() throws Exception {
    ModbusInstrument instrument = instrument(endpoint);
    MotorPower power = instrument.motorPower().orElseThrow();
    power.set(true, in(2000));
    assertThat(image.getDigitalOut(0).isSet()).isTrue();
    power.set(false, in(2000));
    assertThat(image.getDigitalOut(0).isSet()).isFalse();
    instrument.disconnect();
  }

  @Test
  void twoUnitsShareOneConnectionAndARefusalDoesNotEndIt() throws InstrumentException {
    ModbusTcpLine line = line(endpoint);
    ModbusInstrument full =
        new ModbusInstrument("full", line, ModbusRig.points(ModbusRig.SWITCHES));
    ModbusPoints same = ModbusRig.points(Map.of());
    ModbusInstrument empty =
        new ModbusInstrument(
            "empty",
            line,
            new ModbusPoints(
                18,
                Map.of(Role.LOOP_METER, same.registers().get(Role.LOOP_METER)),
                Map.of(),
                Optional.empty(),
                same.channels(),
                SignalRange.FOUR_TO_TWENTY));
    InstrumentException refused = failure(empty, 2000);
    assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
    assertThat(refused)
        .hasMessageContaining("empty at " + endpoint.text())
        .hasMessageContaining("exception 02, illegal data address");
    assertThat(full.loopMeter().orElseThrow().read(in(2000)).value().milliamps())
        .isCloseTo(12.5, within(1e-9));
    assertThat(empty.identify(in(2000))).isEmpty();
    line.close();
  }

  @Test
  void aReplyAfterTheTimeOutNeverPassesForTheNext() throws Exception {
    byte[] ten = HEX.parseHex("00 01 00 00 00 07 11 04 04 41 20 00 00");
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              assertThat(HEX.formatHex(in.readNBytes(12)))
                  .isEqualTo("00 01 00 00 00 06 11 04 00 04 00 02");
              SocketPeer.untilClosed(in);
              out.write(ten);
            },
            (in, out) -> {
              assertThat(HEX.formatHex(in.readNBytes(12)))
                  .isEqualTo("00 02 00 00 00 06 11 04 00 04 00 02");
              out.write(HEX.parseHex("00 02 00 00 00 07 11 04 04 41 48 00 00"));
            })) {
      ModbusInstrument instrument = instrument(peer.endpoint());
      assertThat(failure(instrument, 100).kind()).isEqualTo(Kind.NO_REPLY);
      assertThat(instrument.loopMeter().orElseThrow().read(in(2000)).value().milliamps())
          .isCloseTo(12.5, within(1e-9));
      instrument.disconnect();
      peer.assertServed();
    }
  }

  @Test
  void aSlowDripDoesNotStretchTheDeadline() throws Exception {
    SystemClock ticks = SystemClock.realTime();
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              in.readNBytes(12);
              for (byte b : HEX.parseHex("00 01 00 00 00 07 11 04 04 41 48 00 00")) {
                ticks.waitUntil(ticks.nanos() + 50 * MILLI);
                out.write(b);
              }
            })) {
      ModbusInstrument instrument = instrument(peer.endpoint());
      instrument.connect(in(2000));
      long start = clock.nanos();
      InstrumentException failure = failure(instrument, 200);
      // 13 bytes, 50 ms apart, would take 650 ms; the margin is for a busy machine.
      assertThat(clock.nanos() - start).isBetween(190 * MILLI, 500 * MILLI);
      assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
      assertThat(failure).hasMessageContaining("-> 00");
    }
  }

  @Test
  void halfAReplyThenAHangUpIsPortGone() throws Exception {
    try (SocketPeer peer =
        new SocketPeer(
            (in, out) -> {
              in.readNBytes(12);
              out.write(HEX.parseHex("00 01 00 00 00 07 11 04"));
            })) {
      InstrumentException failure = failure(instrument(peer.endpoint()), 2000);
      assertThat(failure.kind()).isEqualTo(Kind.PORT_GONE);
      assertThat(failure).hasMessageContaining("closed the connection");
    }
  }

  @Test
  void aRefusedConnectionNamesHostAndPort() throws IOException {
    Endpoint nobody = new Endpoint.Tcp("127.0.0.1", freePort());
    InstrumentException failure = failure(instrument(nobody), 2000);
    assertThat(failure.kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(failure)
        .hasMessageContaining("input module at " + nobody.text() + ": port gone")
        .hasMessageContaining("cannot connect to " + nobody.text());
  }
}
