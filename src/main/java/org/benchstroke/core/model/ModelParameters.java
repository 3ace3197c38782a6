package org.benchstroke.core.model;

import java.util.Optional;

/**
 * Everything that a model needs to know of a unit, one part for each piece of physics. Immutable.
 *
 * @param motor the motor with its gear and brake
 * @param supply the motor's supply
 * @param load what the valve asks of it
 * @param mechanics stops, span, play and friction
 * @param sensor the position sensor that the controller goes by
 * @param transmitter what makes the feedback current of it
 * @param input the signal loop up to the unit's terminals
 * @param control the three-position controller
 * @param loss what it does when the signal is lost
 * @param cams the switches
 * @param heat the temperature of the motor
 * @param calibration which angles it takes for 0 and 100 %
 * @param pneumatic what drives it by air in place of its motor; empty for a motorised unit
 */
public record ModelParameters(
    MotorParameters motor,
    SupplyParameters supply,
    LoadParameters load,
    MechanicsParameters mechanics,
    SensorParameters sensor,
    TransmitterParameters transmitter,
    InputParameters input,
    ControlParameters control,
    LossParameters loss,
    CamParameters cams,
    HeatParameters heat,
    CalibrationParameters calibration,
    Optional<PneumaticParameters> pneumatic) {

  /** The example unit of this project: 15 s for 90°, all its faults absent. */
  public static ModelParameters baseline() {
    return new ModelParameters(
        MotorParameters.baseline(),
        SupplyParameters.baseline(),
        LoadParameters.baseline(),
        MechanicsParameters.baseline(),
        SensorParameters.baseline(),
        TransmitterParameters.baseline(),
        InputParameters.baseline(),
        ControlParameters.baseline(),
        LossParameters.baseline(),
        CamParameters.baseline(),
        HeatParameters.baseline(),
        CalibrationParameters.baseline(),
        Optional.empty());
  }

  /** One piece of physics with its parameters. */
  public sealed interface Part
      permits MotorParameters,
          SupplyParameters,
          LoadParameters,
          MechanicsParameters,
          SensorParameters,
          TransmitterParameters,
          InputParameters,
          ControlParameters,
          LossParameters,
          CamParameters,
          HeatParameters,
          CalibrationParameters,
          PneumaticParameters {}

  /**
   * The same with another part in the place of its kind; air in place of its motor, if it is that.
   */
  public ModelParameters with(Part other) {
    return new ModelParameters(
        other instanceof MotorParameters p ? p : motor,
        other instanceof SupplyParameters p ? p : supply,
        other instanceof LoadParameters p ? p : load,
        other instanceof MechanicsParameters p ? p : mechanics,
        other instanceof SensorParameters p ? p : sensor,
        other instanceof TransmitterParameters p ? p : transmitter,
        other instanceof InputParameters p ? p : input,
        other instanceof ControlParameters p ? p : control,
        other instanceof LossParameters p ? p : loss,
        other instanceof CamParameters p ? p : cams,
        other instanceof HeatParameters p ? p : heat,
        other instanceof CalibrationParameters p ? p : calibration,
        other instanceof PneumaticParameters p ? Optional.of(p) : pneumatic);
  }

  /** The slower of its two full travels, s. */
  double strokeSeconds() {
    return pneumatic
        .map(air -> Math.max(air.airSeconds(), air.springSeconds()))
        .orElse(motor.strokeSeconds() * mechanics.travel().spanDegrees() / 90.0);
  }
}
