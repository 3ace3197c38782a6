package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.Endpoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What a client sees of the scripted faults over real sockets. */
@Timeout(60)
class ServedLinkFaultTest {
  private static final Path HEALTHY = Path.of("simulators/healthy-b.toml");
  private static final double SCALE = 100.0;
  private static final int SILENT_MILLIS = 300;
  private static final int PATIENT_MILLIS = 20_000;

  /** Read input register 0 and 1 of unit 1, then those two words. */
  private static final byte[] READ = {0, 7, 0, 0, 0, 6, 1, 4, 0, 0, 0, 2};

  private final SystemClock clock = SystemClock.scaled(SCALE);

  @Test
  void aMeterLosesCutsSpoilsAndHangsUp() throws Exception {
    String faults =
        fault("loop meter", "drop", "exchange = 2")
            + fault("loop meter", "cut", "exchange = 3")
            + fault("loop meter", "garbage", "exchange = 4")
            + fault("loop meter", "reset", "exchange = 6");
    try (SimulatorServer server = serve(faults)) {
      Endpoint.Tcp meter = server.addresses().get(BuiltInBench.LOOP_METER);
      try (Client client = new Client(meter)) {
        byte[] sound = client.ask("*OPC?\n");
        assertThat(sound).isEqualTo("1\n".getBytes(StandardCharsets.US_ASCII));
        client.assertSilentTo("*OPC?\n");
        assertThat(client.ask("*OPC?\n")).isEqualTo("1".getBytes(StandardCharsets.US_ASCII));
        byte[] garbage = client.ask("*OPC?\n");
        assertThat(garbage).hasSameSizeAs(sound);
        assertThat(garbage[0]).isNotEqualTo(sound[0]);
        assertThat(garbage[1]).isNotEqualTo(sound[1]);
        assertThat(client.ask("*OPC?\n")).isEqualTo(sound);
        assertThat(client.ask("*OPC?\n")).as("hung up").isEmpty();
      }
      try (Client again = new Client(meter)) {
        assertThat(again.ask("*OPC?\n")).isNotEmpty();
      }
      try (Client source = new Client(server.addresses().get(BuiltInBench.SOURCE))) {
        assertThat(source.ask("*OPC?\n")).as("another instrument").isNotEmpty();
      }
    }
  }

  @Test
  void aLateAnswerIsLateAndWhole() throws Exception {
    try (SimulatorServer server = serve(fault("source", "late", "exchange = 1\nlate_ms = 20000"));
        Client client = new Client(server.addresses().get(BuiltInBench.SOURCE))) {
      long asked = clock.nanos();
      assertThat(client.ask("*OPC?\n")).isEqualTo("1\n".getBytes(StandardCharsets.US_ASCII));
      assertThat(clock.nanos() - asked).isGreaterThanOrEqualTo(19_900_000_000L);
    }
  }

  @Test
  void aSlowAnswerComesByteByByte() throws Exception {
    String slow = fault("source", "slow bytes", "exchange = 1\nbyte_ms = 20000");
    try (SimulatorServer server = serve(slow);
        Client client = new Client(server.addresses().get(BuiltInBench.SOURCE))) {
      long asked = clock.nanos();
      assertThat(client.ask("*OPC?\n")).isEqualTo("1".getBytes(StandardCharsets.US_ASCII));
      assertThat(client.next()).isEqualTo("\n".getBytes(StandardCharsets.US_ASCII));
      assertThat(clock.nanos() - asked).isGreaterThanOrEqualTo(19_900_000_000L);
    }
  }

  @Test
  void anAnswerThatIsOneBehindComesBeforeTheRightOne() throws Exception {
    String behind = fault("loop meter", "one behind", "exchange = 1\nexchanges = 2");
    try (SimulatorServer server = serve(behind);
        Client client = new Client(server.addresses().get(BuiltInBench.LOOP_METER))) {
      String identity = new String(client.ask("*IDN?\n"), StandardCharsets.US_ASCII);
      assertThat(identity).as("nothing before it").contains("900202").endsWith("\n");
      String both = client.ask("*OPC?\n", identity.length() + 2);
      assertThat(both).isEqualTo(identity + "1\n");
      assertThat(client.ask("*OPC?\n")).isEqualTo("1\n".getBytes(StandardCharsets.US_ASCII));
    }
  }

  @Test
  void aHalfOpenConnectionIsDeafUntilItIsOpenedAnew() throws Exception {
    try (SimulatorServer server = serve(fault("loop meter", "half open", "exchange = 2"))) {
      Endpoint.Tcp meter = server.addresses().get(BuiltInBench.LOOP_METER);
      try (Client client = new Client(meter)) {
        assertThat(client.ask("*OPC?\n")).isNotEmpty();
        client.assertSilentTo("*OPC?\n");
        client.assertSilentTo("*OPC?\n");
        try (Client again = new Client(meter)) {
          assertThat(again.ask("*OPC?\n")).isNotEmpty();
        }
      }
    }
  }

  // MODBUS Application Protocol V1.1b3, 7: function + 0x80, then the exception code.
  @Test
  void anExceptionIsAFrameOfItsOwn() throws Exception {
    try (SimulatorServer server = serve(fault("position input", "exception", "exchange = 2"));
        Client client = new Client(server.addresses().get(BuiltInBench.MODBUS))) {
      byte[] sound = client.ask(READ);
      assertThat(sound).startsWith(0, 7, 0, 0, 0, 7, 1, 4, 4).hasSize(13);
      assertThat(client.ask(READ))
          .isEqualTo(new byte[] {0, 7, 0, 0, 0, 3, 1, (byte) (0x80 | 4), 4});
    }
  }

  @Test
  void aFrozenAnswerBearsTheNumberOfItsRequest() throws Exception {
    String frozen = fault("position input", "freeze", "exchange = 2\nexchanges = 2");
    try (SimulatorServer server = serve(frozen);
        Client client = new Client(server.addresses().get(BuiltInBench.MODBUS))) {
      byte[] first = client.ask(READ);
      byte[] request = READ.clone();
      request[1] = 8;
      byte[] held = client.ask(request);
      assertThat(held[1]).isEqualTo((byte) 8);
      assertThat(Arrays.copyOfRange(held, 2, held.length))
          .isEqualTo(Arrays.copyOfRange(first, 2, first.length));
    }
  }

  @Test
  void whatIsUnpluggedCannotBeReachedAndComesBack() throws Exception {
    try (SimulatorServer server = serve(fault("source", "unplug", "from_s = 0\nfor_s = 300"))) {
      long begun = clock.nanos();
      Endpoint.Tcp source = server.addresses().get(BuiltInBench.SOURCE);
      try (Client client = new Client(source)) {
        assertThat(client.ask("*OPC?\n")).as("hung up").isEmpty();
      }
      try (Client meter = new Client(server.addresses().get(BuiltInBench.LOOP_METER))) {
        assertThat(meter.ask("*OPC?\n")).isNotEmpty();
      }
      clock.waitUntil(begun + 310_000_000_000L);
      try (Client client = new Client(source)) {
        assertThat(client.ask("*OPC?\n")).isNotEmpty();
      }
    }
  }

  private SimulatorServer serve(String faults) throws Exception {
    Simulation simulation = SimulationReader.read(HEALTHY, Files.readString(HEALTHY) + faults);
    return SimulatorServer.start(SimulatedBench.builtIn(simulation), clock, Map.of());
  }

  private static String fault(String on, String kind, String keys) {
    return "\n[[fault]]\non = \"" + on + "\"\nkind = \"" + kind + "\"\n" + keys + "\n";
  }

  /** A client that takes bytes as they come; a short answer is one piece on this machine. */
  private static final class Client implements AutoCloseable {
    private final Socket socket;

    Client(Endpoint.Tcp address) throws IOException {
      socket = new Socket(address.host(), address.port());
    }

    byte[] ask(String message) throws IOException {
      return ask(message.getBytes(StandardCharsets.US_ASCII));
    }

    /** The answer; empty if the other side hung up instead. */
    byte[] ask(byte[] request) throws IOException {
      socket.setSoTimeout(PATIENT_MILLIS);
      try {
        socket.getOutputStream().write(request);
        return next();
      } catch (SocketTimeoutException silence) {
        throw silence;
      } catch (IOException hungUp) {
        return new byte[0];
      }
    }

    /** So many characters, in however many pieces they come. */
    String ask(String message, int length) throws IOException {
      socket.setSoTimeout(PATIENT_MILLIS);
      socket.getOutputStream().write(message.getBytes(StandardCharsets.US_ASCII));
      byte[] answer = socket.getInputStream().readNBytes(length);
      return new String(answer, StandardCharsets.US_ASCII);
    }

    byte[] next() throws IOException {
      byte[] buffer = new byte[256];
      return Arrays.copyOf(buffer, Math.max(0, socket.getInputStream().read(buffer)));
    }

    void assertSilentTo(String message) throws IOException {
      socket.setSoTimeout(SILENT_MILLIS);
      socket.getOutputStream().write(message.getBytes(StandardCharsets.US_ASCII));
      assertThatThrownBy(() -> socket.getInputStream().read())
          .isInstanceOf(SocketTimeoutException.class);
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }
}
