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

  public ModelParameters withMotor(MotorParameters other) {
    return new ModelParameters(
        other,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withSupply(SupplyParameters other) {
    return new ModelParameters(
        motor,
        other,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withLoad(LoadParameters other) {
    return new ModelParameters(
        motor,
        supply,
        other,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withMechanics(MechanicsParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        other,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withSensor(SensorParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        other,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withTransmitter(TransmitterParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        other,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withInput(InputParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        other,
        control,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withControl(ControlParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        other,
        loss,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withLoss(LossParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        other,
        cams,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withCams(CamParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        other,
        heat,
        calibration,
        pneumatic);
  }

  public ModelParameters withHeat(HeatParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        other,
        calibration,
        pneumatic);
  }

  public ModelParameters withCalibration(CalibrationParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        other,
        pneumatic);
  }

  /** Driven by air in place of its motor. */
  public ModelParameters withPneumatic(PneumaticParameters other) {
    return new ModelParameters(
        motor,
        supply,
        load,
        mechanics,
        sensor,
        transmitter,
        input,
        control,
        loss,
        cams,
        heat,
        calibration,
        Optional.of(other));
  }

  /** The slower of its two full travels, s. */
  double strokeSeconds() {
    return pneumatic
        .map(air -> Math.max(air.airSeconds(), air.springSeconds()))
        .orElse(motor.strokeSeconds() * mechanics.travel().spanDegrees() / 90.0);
  }
}
