package org.benchstroke.peers;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.DebianProgram;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What our master asks and our simulator answers, read by tshark's Modbus dissectors. */
@Timeout(120)
class ModbusDissectorTest {
  private static final Path BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");

  @TempDir private Path folder;

  @Test
  void modbusTcp() throws Exception {
    DebianProgram.require("tshark");
    // The same instruments, each behind one gateway.
    String text =
        TomlDocument.textOf(BENCH)
            .replace("modbus rtu", "modbus tcp")
            .replace("serial:/dev/ttyUSB0", "tcp://192.0.2.1:502")
            .replace("speed = 38400\n", "")
            .replace("parity = \"even\"\n", "");
    Wiretap tap = exercised(text);
    Path file = tap.write(folder.resolve("tcp.pcap"));
    isWellFormed(file, tap.requests(), "mbtcp");
  }

  @Test
  void modbusRtuOverTcp() throws Exception {
    DebianProgram.require("tshark");
    String text =
        TomlDocument.textOf(BENCH)
            .replace("serial:/dev/ttyUSB0", "tcp://192.0.2.1:502")
            .replace("speed = 38400\n", "")
            .replace("parity = \"even\"\n", "");
    Wiretap tap = exercised(text);
    Path file = tap.write(folder.resolve("rtu.pcap"));
    isWellFormed(
        file,
        tap.requests(),
        "mbrtu",
        "-d",
        "tcp.port==" + Wiretap.PORT + ",mbrtu",
        "-o",
        "mbrtu.crc_verification:TRUE");
  }

  /** Uses every role of the bench once. */
  private static Wiretap exercised(String text) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    SimulatedBench simulated = SimulatedBench.around(simulation, "bench.toml", text);
    Wiretap tap = new Wiretap(SimulatedLinks.on(simulated, clock));
    BenchFile file = BenchFileReader.read(TomlDocument.parse("bench.toml", text));
    try (Bench bench = BenchAssembly.of(file, simulation.unitType(), tap, clock, Operator.NOBODY)) {
      for (Instrument instrument : bench.instruments()) {
        assertThat(instrument.identify(soon(clock))).isPresent();
      }
      bench.motorPower().orElseThrow().set(true, soon(clock));
      Current setpoint = Current.ofMilliamps(12.0);
      assertThat(bench.source().apply(setpoint, soon(clock)).value().milliamps()).isPositive();
      assertThat(bench.position().read(soon(clock)).raw()).isNotEmpty();
      assertThat(bench.loopMeter().orElseThrow().read(soon(clock)).raw()).isNotEmpty();
      assertThat(bench.angle().orElseThrow().read(soon(clock)).raw()).isNotEmpty();
      assertThat(bench.switches().orElseThrow().read(soon(clock)).value()).hasSize(2);
      bench.source().release(soon(clock));
    }
    return tap;
  }

  private static Deadline soon(VirtualClock clock) {
    return Deadline.in(clock, 500_000_000L);
  }

  private static void isWellFormed(Path file, int requests, String protocol, String... options)
      throws Exception {
    assertThat(requests).isGreaterThan(15);
    List<String> said = tshark(file, options, "-V");
    assertThat(said).noneMatch(line -> line.contains("Malformed"));
    assertThat(said).noneMatch(line -> line.contains("incorrect, should be"));
    assertThat(tshark(file, options, "-Y", protocol + " && modbus")).hasSize(2 * requests);
    assertThat(said)
        .anyMatch(line -> line.contains("Read Coils (1)"))
        .anyMatch(line -> line.contains("Read Discrete Inputs (2)"))
        .anyMatch(line -> line.contains("Read Holding Registers (3)"))
        .anyMatch(line -> line.contains("Read Input Registers (4)"))
        .anyMatch(line -> line.contains("Write Single Coil (5)"))
        .anyMatch(line -> line.contains("Write Single Register (6)"))
        .anyMatch(line -> line.contains("Exception Code: Illegal data address (2)"));
    assertThat(said).filteredOn(line -> line.contains("Function Code: ")).hasSize(2 * requests);
  }

  private static List<String> tshark(Path file, String[] options, String... what) throws Exception {
    List<String> command = new ArrayList<>(List.of("tshark", "-r", file.toString()));
    command.addAll(List.of(options));
    command.addAll(List.of(what));
    return Peer.run(command.toArray(new String[0])).stream()
        .filter(line -> !line.startsWith("Running as user"))
        .toList();
  }
}
