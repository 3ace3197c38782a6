package org.benchstroke.simulator;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.unit.UnitType;

/**
 * What a simulation file says: a unit and the bench it stands on. Immutable.
 *
 * @param name what people call it
 * @param shows what it shows, in a line or two
 * @param unitTypeFile the file of the unit's type
 * @param unitType the type that the unit was ordered as; the unit itself may differ
 * @param seed of all its noise and of its instruments' errors
 * @param angleReference whether the bench has an angle reference at the stem
 * @param samplePeriodMillis how often the bench file has the position read instead of as it stands
 *     there, ms, 10..5000; empty if as it stands there
 * @param parameters what the unit is really like
 * @param faults of the links to the instruments
 * @param instrumentErrors what instruments of the bench are off by, beyond their data sheets
 * @param expected what a routine acceptance must conclude of it, where its file says so
 */
public record Simulation(
    String name,
    String shows,
    Path unitTypeFile,
    UnitType unitType,
    long seed,
    boolean angleReference,
    OptionalDouble samplePeriodMillis,
    ModelParameters parameters,
    List<LinkFault> faults,
    List<InstrumentError> instrumentErrors,
    Optional<Conclusion> expected) {
  public Simulation {
    faults = List.copyOf(faults);
    instrumentErrors = List.copyOf(instrumentErrors);
  }

  /** The same with another seed. */
  public Simulation withSeed(long other) {
    return new Simulation(
        name,
        shows,
        unitTypeFile,
        unitType,
        other,
        angleReference,
        samplePeriodMillis,
        parameters,
        faults,
        instrumentErrors,
        expected);
  }

  /** The same with an angle reference or without, of which no file says what to expect. */
  public Simulation withAngleReference(boolean fitted) {
    return new Simulation(
        name,
        shows,
        unitTypeFile,
        unitType,
        seed,
        fitted,
        samplePeriodMillis,
        parameters,
        faults,
        instrumentErrors,
        Optional.empty());
  }

  /** The same with another unit, of which no file says what to expect. */
  public Simulation withUnit(ModelParameters other) {
    return new Simulation(
        name,
        shows,
        unitTypeFile,
        unitType,
        seed,
        angleReference,
        samplePeriodMillis,
        other,
        faults,
        instrumentErrors,
        Optional.empty());
  }
}
