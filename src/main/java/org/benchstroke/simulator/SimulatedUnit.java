package org.benchstroke.simulator;

import org.benchstroke.core.model.CalibrationParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.core.model.UnitTruth;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.unit.UnitType;

/**
 * The unit of a simulation in the time of its bench, which begins after the unit calibrated itself.
 * One thread at a time.
 */
final class SimulatedUnit {
  private final UnitType type;
  private final UnitModel model;
  private ModelParameters parameters;
  private final SimulatedHand hand;
  private long aheadNanos;

  SimulatedUnit(UnitType type, ModelParameters parameters, long seed) {
    this.type = type;
    this.parameters = parameters;
    this.model = new UnitModel(parameters, seed);
    this.hand = new SimulatedHand(model);
  }

  /** What instruments are connected to. */
  UnitModel model() {
    return model;
  }

  /** What a person's hands do at it. */
  SimulatedHand hand() {
    return hand;
  }

  /** Steps it up to the instant, ns since the bench's beginning. */
  void advanceTo(long nanos) {
    hand.advanceTo(aheadNanos + nanos);
    model.advanceTo(aheadNanos + nanos);
  }

  /** Lets it calibrate itself before the bench's time begins. */
  SimulatedBench.Calibration calibrateItself() {
    double seconds = model.calibrateItself();
    aheadNanos += Math.round(seconds * 1e9);
    boolean succeeded = model.calibrationSucceeded();
    if (succeeded) {
      parameters = parameters.with(parameters.calibration().by(CalibrationParameters.By.UNIT));
    }
    return new SimulatedBench.Calibration(succeeded, seconds);
  }

  /** What a person sees of a switch. */
  boolean made(LimitSwitch which) {
    return switch (which) {
      case CLOSED -> model.closedMade();
      case OPEN -> model.openMade();
      case CLOSED_AUXILIARY -> model.closedAuxiliaryMade();
      case OPEN_AUXILIARY -> model.openAuxiliaryMade();
    };
  }

  /** What a perfect test of it would report; takes a second or so of computing. */
  UnitTruth perfectlyTested() {
    return UnitTruth.of(
        parameters, new UnitTruth.Ordered(type.signal(), type.characteristic(), type.feedback()));
  }
}
