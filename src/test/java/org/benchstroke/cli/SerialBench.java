package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulatorServer;

/**
 * The bench on one RS-485 line, simulated behind a pair of pseudo-terminals that takes its time as
 * a wire of 115200 baud does.
 */
final class SerialBench {
  private static final Path FILE = Path.of("src/test/resources/benches/one-rs485-line.toml");

  /** Short enough for every time-out, ns. */
  private static final long TURN_ROUND_NANOS = 500_000L;

  private SerialBench() {}

  /** What is done while it is served, with the text of its bench file. */
  interface Use<T> {
    T run(String bench, PtyPair cable) throws Exception;
  }

  /** A pseudo-terminal has no parity bit; with two stop bits a character still has 11 bits. */
  static String text() throws IOException {
    String text = Files.readString(FILE);
    String other =
        text.replace("speed = 38400", "speed = 115200")
            // A run is dated by the wall, and must not fail once the invented certificate is over.
            .replaceAll("due = 20\\d\\d-", "due = 2099-")
            // Long enough for a busy machine.
            .replace("reply_timeout_ms = 300", "reply_timeout_ms = 1000")
            .replace("parity = \"even\"", "parity = \"none\"\nstop_bits = 2");
    assertThat(other).isNotEqualTo(text).contains("stop_bits");
    return other;
  }

  /** Serves it with a unit; the ports are in the folder. */
  static <T> T serve(Simulation unit, LeapingClock clock, Path ports, Use<T> use) throws Exception {
    SimulatedBench bench = SimulatedBench.around(unit, "bench", text());
    Endpoint.Serial line = bench.serialLine("rs485").orElseThrow();
    try (PtyPair cable = PtyPair.in(ports);
        SimulatorServer server =
            SimulatorServer.start(
                bench,
                clock.followed(),
                Map.of(),
                List.of(new SerialPlace(line, cable.far().port(), cable.near().port())),
                TURN_ROUND_NANOS)) {
      return use.run(server.benchToml(), cable);
    }
  }
}
