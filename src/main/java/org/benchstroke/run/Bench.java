package org.benchstroke.run;

import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.AngleReference;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.SnapshotReader;
import org.benchstroke.io.instrument.SupplyMeter;
import org.benchstroke.io.instrument.SwitchReader;

/**
 * The instruments of a bench in their roles.
 *
 * @param instruments all of them, to open, identify and close
 * @param source makes the setpoint
 * @param sourceInstrument the one of the instruments that plays the source; empty where a person
 *     sets it
 * @param position reads the feedback
 * @param loopMeter measures the loop, where there is one
 * @param angle reads the stem, where there is one
 * @param switches reads the unit's switches, where they are wired
 * @param supplyMeter measures the supply of the motor, where there is one
 * @param motorPower switches the motor supply, where there is a relay
 * @param snapshots read several roles at once, where instruments can
 * @param stemByEye what the stem's angle is read on by eye, where nothing reads it
 * @param positionByEye what the position is read on by eye, where no instrument reads it: {@code
 *     position} then refuses
 * @param switchesByEye whose switches a person looks at, where nothing reads them
 * @param replyNanos the longest wait for a reply that the bench file allows, ns of wall time
 */
public record Bench(
    List<Instrument> instruments,
    SignalSource source,
    Optional<Instrument> sourceInstrument,
    PositionTransmitter position,
    Optional<LoopMeter> loopMeter,
    Optional<AngleReference> angle,
    Optional<SwitchReader> switches,
    Optional<SupplyMeter> supplyMeter,
    Optional<MotorPower> motorPower,
    List<SnapshotReader> snapshots,
    Optional<InstrumentSpec> stemByEye,
    Optional<InstrumentSpec> positionByEye,
    Optional<InstrumentSpec> switchesByEye,
    long replyNanos)
    implements AutoCloseable {
  public Bench {
    instruments = List.copyOf(instruments);
    snapshots = List.copyOf(snapshots);
  }

  @Override
  public void close() {
    instruments.forEach(Instrument::disconnect);
  }
}
