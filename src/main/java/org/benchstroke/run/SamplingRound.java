package org.benchstroke.run;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Snapshot;
import org.benchstroke.io.instrument.SnapshotReader;

/**
 * The readings of one sample instant. An instrument that can read several roles at once is asked
 * once; its readings are of this round and of no other. The runner's thread only.
 */
final class SamplingRound {
  private final Bench bench;
  private final Supplier<Deadline> deadline;
  private final Map<SnapshotReader, Snapshot> taken = new HashMap<>();

  /** Reads nothing yet. */
  SamplingRound(Bench bench, Supplier<Deadline> deadline) {
    this.bench = bench;
    this.deadline = deadline;
  }

  Reading<Position> position() throws InstrumentException {
    Optional<Snapshot> snapshot = snapshot(Role.POSITION_TRANSMITTER);
    return snapshot.isPresent() ? snapshot.get().position() : bench.position().read(deadline.get());
  }

  Optional<Reading<Angle>> angle() throws InstrumentException {
    if (bench.angle().isEmpty()) {
      return Optional.empty();
    }
    Optional<Snapshot> snapshot = snapshot(Role.ANGLE_REFERENCE);
    return Optional.of(
        snapshot.isPresent() ? snapshot.get().angle() : bench.angle().get().read(deadline.get()));
  }

  Optional<Reading<Map<LimitSwitch, Boolean>>> switches() throws InstrumentException {
    if (bench.switches().isEmpty()) {
      return Optional.empty();
    }
    Optional<Snapshot> snapshot = snapshot(Role.SWITCHES);
    return Optional.of(
        snapshot.isPresent()
            ? snapshot.get().switches()
            : bench.switches().get().read(deadline.get()));
  }

  Optional<Reading<Voltage>> supply() throws InstrumentException {
    if (bench.supplyMeter().isEmpty()) {
      return Optional.empty();
    }
    Optional<Snapshot> snapshot = snapshot(Role.SUPPLY_METER);
    return Optional.of(
        snapshot.isPresent()
            ? snapshot.get().supply()
            : bench.supplyMeter().get().read(deadline.get()));
  }

  Optional<Reading<Current>> loop() throws InstrumentException {
    if (bench.loopMeter().isEmpty()) {
      return Optional.empty();
    }
    Optional<Snapshot> snapshot = snapshot(Role.LOOP_METER);
    return Optional.of(
        snapshot.isPresent()
            ? snapshot.get().loop()
            : bench.loopMeter().get().read(deadline.get()));
  }

  private Optional<Snapshot> snapshot(Role role) throws InstrumentException {
    for (SnapshotReader reader : bench.snapshots()) {
      if (reader.roles().contains(role)) {
        if (!taken.containsKey(reader)) {
          taken.put(reader, reader.take(deadline.get()));
        }
        return Optional.of(taken.get(reader));
      }
    }
    return Optional.empty();
  }
}
