package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.modbus.ModbusAnswer;
import org.benchstroke.io.modbus.ModbusRequest;
import org.benchstroke.io.modbus.ModbusRtuLine;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.RtuTiming;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.io.transport.SerialSettings;
import org.benchstroke.io.transport.SystemLinks;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Never faster than the wire allows. How much slower is the machine's affair and not tested. */
@Timeout(60)
class PacedWireTest {
  private static final long SOON = 5_000_000_000L;

  /** 11 bits a character, as 8E1 has: a pseudo-terminal has no parity bit. */
  private static final SerialSettings SLOW =
      new SerialSettings(
          9600,
          8,
          SerialSettings.Parity.NONE,
          SerialSettings.StopBits.TWO,
          SerialSettings.FlowControl.NONE,
          Optional.empty());

  private static final double CHARACTER_NANOS = 11e9 / 9600;

  private final SystemClock clock = SystemClock.realTime();

  @TempDir private Path folder;

  @Test
  void noByteIsEarly() throws Exception {
    try (PtyPair cable = PtyPair.in(folder);
        ByteLink near = open(cable.near());
        ByteLink far = open(cable.far())) {
      PacedWire wire = new PacedWire(far, SLOW, 3_000_000L, clock);
      byte[] question = new byte[8];
      byte[] answer = {1, 2, 3, 4, 5, 6, 7, 8, 9};
      long asked = clock.nanos();
      near.send(question, Deadline.in(clock, SOON));
      int heard = 0;
      while (heard < question.length) {
        heard += wire.hear(Deadline.in(clock, SOON)).length;
        assertThat(clock.nanos() - asked).isGreaterThanOrEqualTo(least(heard, 0));
      }
      wire.say(answer);
      long took = clock.nanos() - asked;
      assertThat(took).isGreaterThanOrEqualTo(least(8 + 9, 3_000_000L));
      byte[] came = new byte[9];
      int count = 0;
      while (count < came.length) {
        count += near.receive(came, count, came.length - count, Deadline.in(clock, SOON));
      }
      assertThat(came).isEqualTo(answer);
    }
  }

  @Test
  void aPollOfASimulatedLineTakesItsTimeOnTheWire() throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    String text =
        java.nio.file.Files.readString(Path.of("src/test/resources/benches/one-rs485-line.toml"))
            .replace("speed = 38400", "speed = 9600")
            .replace("parity = \"even\"", "parity = \"none\"\nstop_bits = 2");
    SimulatedBench bench = SimulatedBench.around(simulation, "bench", text);
    Endpoint.Serial written = bench.serialLine("rs485").orElseThrow();
    try (PtyPair cable = PtyPair.in(folder);
        SimulatorServer server =
            SimulatorServer.start(
                bench,
                clock,
                Map.of(),
                List.of(new SerialPlace(written, cable.far().port(), cable.near().port())),
                5_000_000L)) {
      assertThat(server.addresses()).isEmpty();
      Endpoint near = server.reached().get(written);
      assertThat(near.text()).isEqualTo(cable.near().text());
      ModbusRtuLine line = new ModbusRtuLine(new SystemLinks(), near, RtuTiming.of(near), clock);
      ModbusRequest request = ModbusRequest.read(Register.Table.INPUT, 0, 2);
      for (int i = 0; i < 5; i++) {
        ModbusAnswer answer = line.exchange("module", 1, request, Deadline.in(clock, SOON));
        // 8 bytes, 3.5 characters and the turn-round, then 9 bytes.
        assertThat(answer.answeredNanos() - answer.askedNanos())
            .isGreaterThanOrEqualTo(least(8 + 9 + 3.5, 5_000_000L));
      }
      line.close();
    }
  }

  private static long least(double characters, long more) {
    return (long) (characters * CHARACTER_NANOS * 0.9999) + more;
  }

  private ByteLink open(Endpoint.Serial end) throws Exception {
    return new SystemLinks().open(new Endpoint.Serial(end.port(), SLOW), Deadline.in(clock, SOON));
  }
}
