package org.benchstroke.simulator;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Operator;

/** A simulation with the product's own drivers on its links, on a virtual clock. */
final class Station {
  final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  final Simulation simulation;
  final SimulatedBench simulated;
  final Bench bench;

  Station(String file) throws FileMistakes, InstrumentException {
    simulation = SimulationReader.read(Path.of("simulators", file));
    simulated = SimulatedBench.of(simulation);
    String text = simulated.benchToml(Map.of(), 1.0);
    bench =
        BenchAssembly.of(
            BenchFileReader.read(TomlDocument.parse("bench", text)),
            simulation.unitType(),
            SimulatedLinks.on(simulated, clock),
            clock,
            Operator.NOBODY);
    for (Instrument instrument : bench.instruments()) {
      instrument.connect(soon());
    }
  }

  Deadline soon() {
    return Deadline.in(clock, 500_000_000L);
  }

  void power() throws InstrumentException {
    bench.motorPower().orElseThrow().set(true, soon());
  }

  void command(double milliamps) throws InstrumentException {
    bench.source().apply(Current.ofMilliamps(milliamps), soon());
  }

  void run(double seconds) {
    clock.waitUntil(clock.nanos() + Math.round(seconds * 1e9));
  }

  double position() throws InstrumentException {
    return bench.position().read(soon()).value().percent();
  }

  double meanPosition() throws InstrumentException {
    double sum = 0.0;
    for (int i = 0; i < 20; i++) {
      sum += position();
      run(0.1);
    }
    return sum / 20.0;
  }

  double meanAngle() throws InstrumentException {
    double sum = 0.0;
    for (int i = 0; i < 20; i++) {
      sum += bench.angle().orElseThrow().read(soon()).value().degrees();
      run(0.1);
    }
    return sum / 20.0;
  }

  /** Goes to a setpoint and gives the feedback at rest. */
  double rest(double percent) throws InstrumentException {
    command(4.0 + 0.16 * percent);
    run(22.0);
    return meanPosition();
  }

  double loop() throws InstrumentException {
    return bench.loopMeter().orElseThrow().read(soon()).value().milliamps();
  }

  Map<LimitSwitch, Boolean> switches() throws InstrumentException {
    return bench.switches().orElseThrow().read(soon()).value();
  }
}
