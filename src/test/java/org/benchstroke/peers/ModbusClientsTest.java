package org.benchstroke.peers;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.benchstroke.DebianProgram;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.io.transport.SystemLinks;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.ByteSession;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Our simulator asked by Modbus clients of Debian: mbpoll and a program made with libmodbus. */
@Timeout(60)
class ModbusClientsTest {
  private static final String SIMULATION = "simulators/slack-after-sensor.toml";

  private final SystemClock clock = SystemClock.realTime();

  @TempDir private Path folder;

  private static Simulation simulation() throws FileMistakes {
    return SimulationReader.read(Path.of(SIMULATION));
  }

  /** The built-in bench with its Modbus instruments on an RTU line. */
  private SimulatedBench overRtu() throws Exception {
    String text = SimulatedBench.of(simulation()).benchToml(Map.of(), 1.0);
    assertThat(text).contains("modbus tcp");
    return SimulatedBench.around(
        simulation(), "bench.toml", text.replace("modbus tcp", "modbus rtu"));
  }

  @Test
  void libmodbusOverTcp() throws Exception {
    Path client = Peer.libmodbus("modbus_client", folder);
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation()), clock, Map.of())) {
      int port = server.addresses().get(BuiltInBench.MODBUS).port();
      isUnderstood(Peer.run(client.toString(), "tcp", Integer.toString(port)));
    }
  }

  @Test
  void libmodbusOverAPseudoTerminal() throws Exception {
    Path client = Peer.libmodbus("modbus_client", folder);
    ByteSession session = overRtu().connect(BuiltInBench.MODBUS);
    try (PtyPair cable = PtyPair.in(folder);
        ByteLink far =
            new SystemLinks().open(cable.far(), Deadline.inWall(clock, 2_000_000_000L))) {
      Thread slave = new Thread(() -> serve(far, session), "slave");
      slave.setDaemon(true);
      slave.start();
      String near = cable.near().text().replaceFirst("^serial:", "");
      isUnderstood(Peer.run(client.toString(), "rtu", near));
    }
  }

  private void serve(ByteLink link, ByteSession session) {
    byte[] buffer = new byte[300];
    try {
      while (true) {
        int count = link.receive(buffer, 0, buffer.length, hour());
        byte[] answer = session.feed(Arrays.copyOf(buffer, count));
        link.send(answer, hour());
      }
    } catch (LinkException closed) {
      assertThat(closed.kind()).isEqualTo(LinkException.Kind.PORT_GONE);
    }
  }

  private Deadline hour() {
    return Deadline.inWall(clock, 3_600_000_000_000L);
  }

  private static void isUnderstood(List<String> said) {
    assertThat(said).hasSize(7);
    assertThat(said.get(0)).matches("position ([3-9]|1[0-9]|20)\\.[0-9]{3}");
    assertThat(said.get(1)).matches("switches [01]{4}");
    assertThat(said.subList(2, 7))
        .containsExactly(
            "serial 900303",
            "written 1",
            "motor power 1",
            "refused Illegal data address",
            "other unit 900404");
  }

  @Test
  void mbpollOverTcp() throws Exception {
    DebianProgram.require("mbpoll");
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation()), clock, Map.of())) {
      String port = Integer.toString(server.addresses().get(BuiltInBench.MODBUS).port());
      assertThat(mbpoll(port, "-t", "3:float", "-B", "-r", "0", "-c", "1"))
          .anyMatch(line -> line.matches("\\[0]:\\s+[0-9.]+"));
      assertThat(mbpoll(port, "-t", "1", "-r", "0", "-c", "4"))
          .filteredOn(line -> line.matches("\\[[0-3]]:\\s+[01]"))
          .hasSize(4);
      assertThat(mbpoll(port, "-t", "4:int", "-B", "-r", "100", "-c", "1"))
          .anyMatch(line -> line.matches("\\[100]:\\s+900303"));
      assertThat(mbpoll(port, "-t", "0", "-r", "0", "-c", "1"))
          .anyMatch(line -> line.matches("\\[0]:\\s+0"));
      assertThat(mbpoll(port, "-t", "3", "-r", "700", "-c", "1"))
          .anyMatch(line -> line.contains("Illegal data address"));
    }
  }

  @Test
  void mbpollOverAPseudoTerminal() throws Exception {
    DebianProgram.require("mbpoll");
    ByteSession session = overRtu().connect(BuiltInBench.MODBUS);
    try (PtyPair cable = PtyPair.in(folder);
        ByteLink far =
            new SystemLinks().open(cable.far(), Deadline.inWall(clock, 2_000_000_000L))) {
      Thread slave = new Thread(() -> serve(far, session), "slave");
      slave.setDaemon(true);
      slave.start();
      String near = cable.near().text().replaceFirst("^serial:", "");
      assertThat(Files.exists(Path.of(near))).isTrue();
      assertThat(
              Peer.run(
                  "mbpoll", "-m", "rtu", "-b", "19200", "-P", "none", "-a", "1", "-0", "-1", "-t",
                  "4:int", "-B", "-r", "100", "-c", "1", near))
          .anyMatch(line -> line.matches("\\[100]:\\s+900303"));
    }
  }

  private static List<String> mbpoll(String port, String... what) throws Exception {
    List<String> command = new java.util.ArrayList<>(List.of("mbpoll", "-m", "tcp", "-p", port));
    command.addAll(List.of("-a", "1", "-0", "-1"));
    command.addAll(List.of(what));
    command.add("127.0.0.1");
    return Peer.run(command.toArray(new String[0]));
  }
}
