package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.Endpoint;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * The server over real sockets, with the master of j2mod: its frames and sockets share no code with
 * ours, but its messages are in the program. {@code peers} has masters that share nothing.
 */
@Timeout(30)
class SimulatorServerTest {
  private static final int UNIT = 1;
  private static final double SCALE = 100.0;

  private final SystemClock clock = SystemClock.scaled(SCALE);
  private SimulatorServer server;
  private SimulatedBench bench;

  @BeforeEach
  void start() throws Exception {
    bench = SimulatedBench.of(SimulationReader.read(Path.of("simulators/slack-after-sensor.toml")));
    server = SimulatorServer.start(bench, clock, Map.of());
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private ModbusTCPMaster master() throws Exception {
    Endpoint.Tcp address = server.addresses().get(BuiltInBench.MODBUS);
    ModbusTCPMaster master = new ModbusTCPMaster(address.host(), address.port());
    master.setTimeout(2000);
    master.setRetries(1);
    master.connect();
    return master;
  }

  private static float f32(InputRegister[] words) {
    return Float.intBitsToFloat(words[0].getValue() << 16 | words[1].getValue());
  }

  /** A SCPI client of its own, line by line. */
  private static final class Client implements AutoCloseable {
    private final Socket socket;
    private final BufferedReader in;

    Client(Endpoint.Tcp address) throws IOException {
      socket = new Socket(address.host(), address.port());
      socket.setSoTimeout(5000);
      in =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII));
    }

    void send(String message) throws IOException {
      socket.getOutputStream().write((message + "\n").getBytes(StandardCharsets.US_ASCII));
    }

    String ask(String message) throws IOException {
      send(message);
      return in.readLine();
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }

  private Client client(Endpoint port) throws IOException {
    return new Client(server.addresses().get(port));
  }

  @Test
  void independentMasterDrivesTheUnit() throws Exception {
    ModbusTCPMaster master = master();
    try (Client source = client(BuiltInBench.SOURCE)) {
      assertThat(master.writeCoil(UNIT, 0, true)).isTrue();
      assertThat(master.readCoils(UNIT, 0, 1).getBit(0)).isTrue();
      assertThat(source.ask("SOUR:CURR 20 mA;:OUTP ON;*OPC?")).isEqualTo("1");
      clock.waitUntil(clock.nanos() + 20_000_000_000L);
      assertThat(f32(master.readInputRegisters(UNIT, 0, 2))).isCloseTo(20.0f, within(0.03f));
      assertThat(f32(master.readInputRegisters(2, 0, 2))).isCloseTo(89.5f, within(0.2f));
      BitVector switches = master.readInputDiscretes(UNIT, 0, 4);
      assertThat(switches.getBit(0)).isFalse();
      assertThat(switches.getBit(2)).isTrue();
      Register[] serial = master.readMultipleRegisters(UNIT, 100, 2);
      assertThat(serial[0].getValue() << 16 | serial[1].getValue()).isEqualTo(900303);
      BitVector off = new BitVector(1);
      master.writeMultipleCoils(UNIT, 0, off);
      assertThat(master.readCoils(UNIT, 0, 1).getBit(0)).isFalse();
    } finally {
      master.disconnect();
    }
  }

  @Test
  void independentMasterSeesTheExceptions() throws Exception {
    ModbusTCPMaster master = master();
    try {
      assertThat(exception(() -> master.readInputRegisters(UNIT, 50, 2))).isEqualTo(2);
      assertThat(exception(() -> master.writeSingleRegister(UNIT, 100, new SimpleRegister(1))))
          .isEqualTo(2);
      assertThat(exception(() -> master.maskWriteRegister(UNIT, 100, 1, 1))).isEqualTo(1);
      assertThat(f32(master.readInputRegisters(UNIT, 0, 2))).isBetween(3.8f, 20.5f);
    } finally {
      master.disconnect();
    }
  }

  private static int exception(Callable<?> request) {
    return catchThrowableOfType(ModbusSlaveException.class, request::call).getType();
  }

  @Test
  void twoClientsAtOnceGetTheirOwnAnswers() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      List<Future<Integer>> done = new ArrayList<>();
      for (int i = 0; i < 2; i++) {
        done.add(pool.submit(this::readPositions));
        done.add(pool.submit(this::readIdentities));
      }
      for (Future<Integer> each : done) {
        assertThat(each.get()).isEqualTo(300);
      }
    } finally {
      pool.shutdownNow();
    }
  }

  private int readPositions() throws Exception {
    ModbusTCPMaster master = master();
    try {
      int good = 0;
      for (int i = 0; i < 300; i++) {
        good += inRange(master) ? 1 : 0;
      }
      return good;
    } finally {
      master.disconnect();
    }
  }

  private static boolean inRange(ModbusTCPMaster master) throws ModbusException {
    float milliamps = f32(master.readInputRegisters(UNIT, 0, 2));
    return milliamps >= 3.8f && milliamps <= 20.5f;
  }

  private int readIdentities() throws IOException {
    try (Client meter = client(BuiltInBench.LOOP_METER)) {
      int good = 0;
      for (int i = 0; i < 300; i++) {
        good += meter.ask("*IDN?").startsWith("Example Instruments,LM6,") ? 1 : 0;
      }
      return good;
    }
  }

  @Test
  void survivesGarbageAndResets() throws Exception {
    for (Endpoint port : bench.ports().keySet()) {
      for (int i = 0; i < 5; i++) {
        try (Client rude = client(port)) {
          rude.send("\u0001GET / HTTP/1.1");
          // Closing with a linger of 0 resets the connection.
          rude.socket.setSoLinger(true, 0);
        }
      }
    }
    try (Client source = client(BuiltInBench.SOURCE)) {
      assertThat(source.ask("SYST:ERR?")).isEqualTo("0,\"No error\"");
    }
    ModbusTCPMaster master = master();
    assertThat(inRange(master)).isTrue();
    master.disconnect();
  }

  @Test
  void hangsUpOnWhatIsNoModbus() throws Exception {
    try (Client wrong = client(BuiltInBench.MODBUS)) {
      assertThat(wrong.ask("GET / HTTP/1.1")).isNull();
    }
  }

  @Test
  void unitLivesOnBetweenRequests() throws Exception {
    ModbusTCPMaster master = master();
    master.writeCoil(UNIT, 0, true);
    master.disconnect();
    // Its loop is open, so it closes with nobody connected.
    clock.waitUntil(clock.nanos() + 30_000_000_000L);
    ModbusTCPMaster again = master();
    assertThat(again.readInputDiscretes(UNIT, 0, 1).getBit(0)).isTrue();
    again.disconnect();
  }

  @Test
  void benchFileNamesTheAddresses() throws Exception {
    BenchFile file = BenchFileReader.read(TomlDocument.parse("bench", server.benchToml()));
    assertThat(file.instruments().get(0).endpoint())
        .isEqualTo(server.addresses().get(BuiltInBench.SOURCE));
    assertThat(file.simulation().orElseThrow().timeScale()).isEqualTo(SCALE);
  }

  @Test
  void takenPortIsRefusedInWords() {
    int taken = server.addresses().get(BuiltInBench.SOURCE).port();
    assertThatThrownBy(
            () -> SimulatorServer.start(bench, clock, Map.of(BuiltInBench.SOURCE, taken)))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("port " + taken + " can't be used");
  }

  @Test
  void closeHangsUpOnEveryClient() throws Exception {
    try (Client source = client(BuiltInBench.SOURCE)) {
      assertThat(source.ask("*OPC?")).isEqualTo("1");
      server.close();
      server.close();
      assertThat(endOfStream(source)).isTrue();
    }
    Endpoint.Tcp address = server.addresses().get(BuiltInBench.SOURCE);
    assertThatThrownBy(() -> new Client(address)).isInstanceOf(IOException.class);
  }

  private static boolean endOfStream(Client client) {
    try {
      return client.in.readLine() == null;
    } catch (IOException reset) {
      return true;
    }
  }
}
