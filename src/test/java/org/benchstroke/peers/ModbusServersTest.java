package org.benchstroke.peers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.modbus.ModbusInstrument;
import org.benchstroke.io.modbus.ModbusLine;
import org.benchstroke.io.modbus.ModbusPoints;
import org.benchstroke.io.modbus.ModbusRequest;
import org.benchstroke.io.modbus.ModbusRtuLine;
import org.benchstroke.io.modbus.ModbusTcpLine;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.RtuTiming;
import org.benchstroke.io.modbus.SourceWiring;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.io.transport.SystemLinks;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Our master against Modbus servers of Debian: libmodbus (C) and pymodbus (Python). */
@Timeout(60)
class ModbusServersTest {
  private static final int UNIT = 17;

  private final SystemClock clock = SystemClock.realTime();

  @TempDir private Path folder;

  private Deadline soon() {
    return Deadline.inWall(clock, 2_000_000_000L);
  }

  private ModbusLine tcp(int port) {
    return new ModbusTcpLine(new SystemLinks(), new Endpoint.Tcp("127.0.0.1", port), clock);
  }

  private ModbusLine rtu(Endpoint port) {
    return new ModbusRtuLine(new SystemLinks(), port, RtuTiming.of(port), clock);
  }

  @Test
  void libmodbusOverTcp() throws Exception {
    Path server = Peer.libmodbus("modbus_server", folder);
    try (Peer peer = Peer.start(server.toString(), "tcp")) {
      playsEveryRole(tcp(Integer.parseInt(peer.ready())));
    }
  }

  @Test
  void libmodbusOverAPseudoTerminal() throws Exception {
    Path server = Peer.libmodbus("modbus_server", folder);
    try (PtyPair cable = PtyPair.in(folder);
        Peer peer = Peer.start(server.toString(), "rtu", path(cable.far()))) {
      assertThat(peer.ready()).isEqualTo("0");
      ModbusLine line = rtu(cable.near());
      playsEveryRole(line);
      silentForAnotherUnit(line);
    }
  }

  @Test
  void pymodbusOverTcp() throws Exception {
    Peer.requirePymodbus();
    int port = freePort();
    try (Peer peer =
        Peer.start(
            Peer.PYTHON.toString(),
            Peer.resource("modbus_server.py").toString(),
            "tcp",
            Integer.toString(port))) {
      assertThat(peer.ready()).isEqualTo(Integer.toString(port));
      playsEveryRole(tcp(port));
    }
  }

  @Test
  void pymodbusOverAPseudoTerminal() throws Exception {
    Peer.requirePymodbus();
    try (PtyPair cable = PtyPair.in(folder);
        Peer peer =
            Peer.start(
                Peer.PYTHON.toString(),
                Peer.resource("modbus_server.py").toString(),
                "rtu",
                path(cable.far()))) {
      assertThat(peer.ready()).isEqualTo(path(cable.far()));
      playsEveryRole(rtu(cable.near()));
    }
  }

  private static String path(Endpoint.Serial end) {
    return end.text().replaceFirst("^serial:", "");
  }

  /** The server can't be asked for its port, so that it must be told one. */
  private static int freePort() throws Exception {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private void playsEveryRole(ModbusLine line) throws InstrumentException {
    ModbusInstrument module = new ModbusInstrument("module", line, points());
    assertThat(module.identify(soon()).orElseThrow().serial()).isEqualTo("3003");
    assertThat(module.loopMeter().orElseThrow().read(soon()).value().milliamps()).isEqualTo(12.5);
    Reading<Map<LimitSwitch, Boolean>> switches = module.switchReader().orElseThrow().read(soon());
    assertThat(switches.value())
        .isEqualTo(Map.of(LimitSwitch.CLOSED, true, LimitSwitch.OPEN, false));
    MotorPower power = module.motorPower().orElseThrow();
    power.set(true, soon());
    power.set(false, soon());
    SignalSource source = module.signalSource().orElseThrow();
    for (double milliamps : new double[] {4.0, 12.345, 20.0}) {
      assertThat(source.apply(Current.ofMilliamps(milliamps), soon()).value().milliamps())
          .isCloseTo(milliamps, within(1e-6));
    }
    source.release(soon());
    refuses(line);
    line.close();
  }

  private void refuses(ModbusLine line) {
    InstrumentException refused =
        catchThrowableOfType(
            InstrumentException.class,
            () ->
                line.exchange(
                    "module", UNIT, ModbusRequest.read(Register.Table.INPUT, 5000, 2), soon()));
    assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
    assertThat(refused).hasMessageContaining("exception 02, illegal data address");
  }

  private void silentForAnotherUnit(ModbusLine line) {
    InstrumentException silent =
        catchThrowableOfType(
            InstrumentException.class,
            () ->
                line.exchange(
                    "module",
                    18,
                    ModbusRequest.read(Register.Table.INPUT, 0, 2),
                    Deadline.inWall(clock, 200_000_000L)));
    assertThat(silent.kind()).isEqualTo(Kind.NO_REPLY);
    line.close();
  }

  private static ModbusPoints points() {
    return new ModbusPoints(
        UNIT,
        Map.of(
            Role.LOOP_METER, number(Register.Table.INPUT, 4, Register.Type.F32, 1.0),
            Role.SIGNAL_SOURCE, number(Register.Table.HOLDING, 20, Register.Type.U32, 0.001),
            Role.MOTOR_POWER, Register.bit(Register.Table.COIL, 0, "0")),
        Map.of(
            LimitSwitch.CLOSED, Register.bit(Register.Table.DISCRETE, 10, "10"),
            LimitSwitch.OPEN, Register.bit(Register.Table.DISCRETE, 11, "11")),
        Optional.of(number(Register.Table.HOLDING, 100, Register.Type.U32, 1.0)),
        Map.of(Role.LOOP_METER, channel(), Role.SIGNAL_SOURCE, channel()),
        SignalRange.FOUR_TO_TWENTY,
        new SourceWiring(false, Optional.of(Register.bit(Register.Table.COIL, 1, "1"))),
        Optional.empty());
  }

  private static Register number(
      Register.Table table, int address, Register.Type type, double scale) {
    return new Register(table, address, type, Register.Order.ABCD, scale, 0.0);
  }

  private static Channel channel() {
    return new Channel(
        "mA",
        new Accuracy(0.02, 0.0, 0.0, 0.001),
        0.001,
        OptionalDouble.of(0.0),
        OptionalDouble.of(24.0));
  }
}
