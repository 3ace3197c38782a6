package org.benchstroke.speed;

import com.digitalpetri.modbus.client.ModbusRtuClient;
import com.digitalpetri.modbus.client.ModbusTcpClient;
import com.digitalpetri.modbus.pdu.ReadInputRegistersRequest;
import com.digitalpetri.modbus.serial.client.SerialPortClientTransport;
import com.digitalpetri.modbus.tcp.client.NettyTcpClientTransport;
import com.ghgande.j2mod.modbus.facade.AbstractModbusMaster;
import com.ghgande.j2mod.modbus.facade.ModbusSerialMaster;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import java.nio.ByteBuffer;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.ModbusInstrument;
import org.benchstroke.io.modbus.ModbusLine;
import org.benchstroke.io.modbus.ModbusPoints;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.SourceWiring;

/** A client that reads the two input registers at address 0 of unit 17, again and again. */
interface Poller extends AutoCloseable {
  int UNIT = 17;

  /** One poll; the value, which is 50 on every server here. */
  double poll() throws Exception;

  @Override
  void close();

  /** This product: a loop meter as a run reads it, with its raw text, its stamps and its checks. */
  static Poller ours(ModbusLine line, SystemClock clock) {
    ModbusInstrument module = new ModbusInstrument("module", line, points());
    LoopMeter meter = module.loopMeter().orElseThrow();
    return of(
        () -> meter.read(Deadline.inWall(clock, 10_000_000_000L)).value().milliamps(), line::close);
  }

  private static ModbusPoints points() {
    Register register =
        new Register(Register.Table.INPUT, 0, Register.Type.F32, Register.Order.ABCD, 1.0, 0.0);
    Channel channel =
        new Channel(
            "mA",
            new Accuracy(0.02, 0.0, 0.0, 0.001),
            0.001,
            OptionalDouble.empty(),
            OptionalDouble.empty());
    return new ModbusPoints(
        UNIT,
        Map.of(Role.LOOP_METER, register),
        Map.of(),
        Optional.empty(),
        Map.of(Role.LOOP_METER, channel),
        SignalRange.FOUR_TO_TWENTY,
        new SourceWiring(false, Optional.empty()),
        Optional.empty());
  }

  static Poller j2modTcp(int port) throws Exception {
    return j2mod(new ModbusTCPMaster("127.0.0.1", port));
  }

  static Poller j2modRtu(String device, int baud) throws Exception {
    SerialParameters parameters = new SerialParameters(device, baud, 0, 0, 8, 1, 0, false);
    parameters.setEncoding("rtu");
    return j2mod(new ModbusSerialMaster(parameters));
  }

  private static Poller j2mod(AbstractModbusMaster master) throws Exception {
    master.connect();
    return of(
        () -> {
          InputRegister[] two = master.readInputRegisters(UNIT, 0, 2);
          return Float.intBitsToFloat(two[0].getValue() << 16 | two[1].getValue());
        },
        master::disconnect);
  }

  static Poller digitalpetriTcp(int port) throws Exception {
    ModbusTcpClient client =
        ModbusTcpClient.create(
            NettyTcpClientTransport.create(
                config -> config.setHostname("127.0.0.1").setPort(port)));
    client.connect();
    ReadInputRegistersRequest request = new ReadInputRegistersRequest(0, 2);
    return of(
        () -> ByteBuffer.wrap(client.readInputRegisters(UNIT, request).registers()).getFloat(),
        client::disconnect);
  }

  static Poller digitalpetriRtu(String device, int baud) throws Exception {
    ModbusRtuClient client =
        ModbusRtuClient.create(
            SerialPortClientTransport.create(
                config ->
                    config
                        .setSerialPort(device)
                        .setBaudRate(baud)
                        .setDataBits(8)
                        .setParity(0)
                        .setStopBits(1)));
    client.connect();
    ReadInputRegistersRequest request = new ReadInputRegistersRequest(0, 2);
    return of(
        () -> ByteBuffer.wrap(client.readInputRegisters(UNIT, request).registers()).getFloat(),
        client::disconnect);
  }

  private static Poller of(Poll poll, Close close) {
    return new Poller() {
      @Override
      public double poll() throws Exception {
        return poll.poll();
      }

      @Override
      public void close() {
        try {
          close.close();
        } catch (Exception e) {
          throw new IllegalStateException(e);
        }
      }
    };
  }

  /** See {@link #poll()}. */
  interface Poll {
    double poll() throws Exception;
  }

  /** See {@link #close()}. */
  interface Close {
    void close() throws Exception;
  }
}
