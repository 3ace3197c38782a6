package org.benchstroke.simulator;

import java.util.List;
import java.util.Map;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.SourceWiring;

/** Fills a register map with what a bench file says of one Modbus instrument. One thread. */
final class SimulatedModbus {
  private final UnitModel unit;
  private final SimulatedRelay relay;
  private final Converters converters;
  private final SignalRange feedback;
  private final RegisterMap map;

  /**
   * For one instrument.
   *
   * @param relay its relay for the motor supply, if it has one
   * @param converters where the converters of its channels are kept
   * @param feedback the unit's feedback range, for instruments that show %
   * @param map what is filled; instruments with the same address share it
   */
  SimulatedModbus(
      UnitModel unit,
      SimulatedRelay relay,
      Converters converters,
      SignalRange feedback,
      RegisterMap map) {
    this.unit = unit;
    this.relay = relay;
    this.converters = converters;
    this.feedback = feedback;
    this.map = map;
  }

  /**
   * Adds an instrument.
   *
   * @param errors what the bench file says wrongly of it
   */
  void add(InstrumentSpec spec, Map<Role, Specimen> specimens, List<InstrumentError> errors) {
    ModbusSettings told = spec.talk(ModbusSettings.class).orElseThrow();
    told.registers()
        .forEach(
            (role, said) -> {
              Register really =
                  errors.stream()
                      .filter(e -> e.isOf(spec, role))
                      .reduce(said, (register, e) -> e.written(register), (a, b) -> b);
              addRole(role, really, told.source(), specimens);
            });
    told.keepAlive().ifPresent(each -> addSetting(each.register()));
    told.switches().forEach(this::addSwitch);
    told.serialNumber()
        .ifPresent(
            register -> {
              double serial = Double.parseDouble(spec.serial());
              SimulatedRegisters.reading(map, register, () -> serial);
            });
  }

  private void addRole(
      Role role, Register register, SourceWiring wiring, Map<Role, Specimen> specimens) {
    switch (role) {
      case MOTOR_POWER -> addMotorPower(register);
      case SWITCHES -> throw new IllegalArgumentException("switches have registers of their own");
      case SIGNAL_SOURCE -> addSource(register, wiring, specimens.get(role));
      case LOOP_METER, POSITION_TRANSMITTER, ANGLE_REFERENCE, SUPPLY_METER -> {
        Specimen specimen = specimens.get(role);
        SimulatedRegisters.reading(
            map, register, converters.of(specimen, () -> truth(role, specimen)));
        register.guard().counter().ifPresent(counter -> addCounter(counter.register()));
      }
    }
  }

  /** A source drives the loop from the start, unless a coil switches its output. */
  private void addSource(Register register, SourceWiring wiring, Specimen specimen) {
    double[] setting = {specimen.nearest(0.0)};
    boolean[] on = {wiring.output().isEmpty()};
    Runnable drive = () -> unit.command(on[0] ? specimen.made(setting[0]) : 0.0);
    drive.run();
    SimulatedRegisters.setting(
        map,
        register,
        setting[0],
        value -> {
          setting[0] = specimen.nearest(value);
          drive.run();
        });
    wiring
        .output()
        .ifPresent(
            coil ->
                map.add(
                    coil.table(),
                    coil.address(),
                    1,
                    () -> new int[] {on[0] ? 1 : 0},
                    (index, value) -> {
                      on[0] = value != 0;
                      drive.run();
                    }));
  }

  /** It counts how often it is read. */
  private void addCounter(Register register) {
    int[] count = {0};
    map.add(
        register.table(),
        register.address(),
        1,
        () -> {
          count[0] = (count[0] + 1) & 0xFFFF;
          return new int[] {count[0]};
        });
  }

  /** A register or coil that only keeps what is written. */
  private void addSetting(Register register) {
    int[] kept = {0};
    map.add(register.table(), register.address(), 1, () -> kept, (index, value) -> kept[0] = value);
  }

  private double truth(Role role, Specimen specimen) {
    return switch (role) {
      case LOOP_METER -> unit.loopMilliamps();
      case SUPPLY_METER -> unit.supplyVolts();
      case ANGLE_REFERENCE -> unit.stemDegrees();
      default ->
          specimen.unit().equals("mA")
              ? specimen.atFeedbackTerminals(unit)
              : feedback
                  .positionAt(Current.ofMilliamps(specimen.atFeedbackTerminals(unit)))
                  .percent();
    };
  }

  private void addMotorPower(Register coil) {
    map.add(
        coil.table(),
        coil.address(),
        1,
        () -> new int[] {relay.on() ? 1 : 0},
        (index, value) -> relay.set(value != 0));
  }

  private void addSwitch(LimitSwitch which, Register bit) {
    map.add(
        bit.table(),
        bit.address(),
        1,
        () -> new int[] {SimulatedSwitches.made(unit, which) ? 1 : 0});
  }
}
