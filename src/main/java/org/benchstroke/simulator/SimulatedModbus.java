package org.benchstroke.simulator;

import java.util.Map;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.Role;
import org.benchstroke.instrument.modbus.Register;
import org.benchstroke.model.UnitModel;
import org.benchstroke.quantity.Current;
import org.benchstroke.quantity.SignalRange;

/** Fills a register map with what a bench file says of one Modbus instrument. One thread. */
final class SimulatedModbus {
  private final UnitModel unit;
  private final SignalRange feedback;
  private final RegisterMap map;

  /**
   * For one instrument.
   *
   * @param feedback the unit's feedback range, for instruments that show %
   * @param map what is filled; instruments with the same address share it
   */
  SimulatedModbus(UnitModel unit, SignalRange feedback, RegisterMap map) {
    this.unit = unit;
    this.feedback = feedback;
    this.map = map;
  }

  void add(InstrumentSpec spec, Map<Role, Specimen> specimens) {
    InstrumentSpec.ModbusMap told = spec.modbus().orElseThrow();
    told.registers().forEach((role, register) -> addRole(role, register, specimens));
    told.switches().forEach(this::addSwitch);
    told.serialNumber()
        .ifPresent(
            register -> {
              double serial = Double.parseDouble(spec.serial());
              SimulatedRegisters.reading(map, register, () -> serial);
            });
  }

  private void addRole(Role role, Register register, Map<Role, Specimen> specimens) {
    switch (role) {
      case MOTOR_POWER -> addMotorPower(register);
      case SWITCHES -> throw new IllegalArgumentException("switches have registers of their own");
      case SIGNAL_SOURCE -> {
        Specimen specimen = specimens.get(role);
        double first = specimen.nearest(0.0);
        unit.command(specimen.made(first));
        SimulatedRegisters.setting(
            map, register, first, value -> unit.command(specimen.made(specimen.nearest(value))));
      }
      case LOOP_METER, POSITION_TRANSMITTER, ANGLE_REFERENCE -> {
        Specimen specimen = specimens.get(role);
        SimulatedRegisters.reading(map, register, () -> specimen.shown(truth(role, specimen)));
      }
    }
  }

  private double truth(Role role, Specimen specimen) {
    return switch (role) {
      case LOOP_METER -> unit.loopMilliamps();
      case ANGLE_REFERENCE -> unit.stemDegrees();
      default ->
          specimen.unit().equals("mA")
              ? unit.feedbackMilliamps()
              : feedback.positionAt(Current.ofMilliamps(unit.feedbackMilliamps())).percent();
    };
  }

  private void addMotorPower(Register coil) {
    map.add(
        coil.table(),
        coil.address(),
        1,
        () -> new int[] {unit.motorPower() ? 1 : 0},
        (index, value) -> unit.motorPower(value != 0));
  }

  private void addSwitch(LimitSwitch which, Register bit) {
    map.add(
        bit.table(),
        bit.address(),
        1,
        () -> new int[] {SimulatedSwitches.made(unit, which) ? 1 : 0});
  }
}
