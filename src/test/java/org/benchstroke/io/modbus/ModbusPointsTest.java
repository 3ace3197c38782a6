package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.api.Test;

class ModbusPointsTest {
  private static final Register HOLDING =
      new Register(Register.Table.HOLDING, 7, Register.Type.F32, Register.Order.ABCD, 1.0, 0.0);
  private static final Register COIL = ModbusRig.bit(Register.Table.COIL, 0);

  private static ModbusPoints points(Role role, Register register, Map<Role, Channel> channels) {
    return new ModbusPoints(
        1,
        Map.of(role, register),
        Map.of(),
        Optional.empty(),
        channels,
        SignalRange.FOUR_TO_TWENTY);
  }

  private static void refuses(Role role, Register register, String unit, String words) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> points(role, register, Map.of(role, ModbusRig.channel(unit, 0.0, 100.0))))
        .withMessageContaining(words);
  }

  @Test
  void refusesWhatARoleCanNotUse() {
    refuses(Role.LOOP_METER, COIL, "mA", "needs a register, not a bit");
    refuses(Role.LOOP_METER, HOLDING, "deg", "loop meter needs a channel in mA");
    refuses(Role.ANGLE_REFERENCE, HOLDING, "mA", "angle reference needs a channel in deg");
    refuses(Role.MOTOR_POWER, HOLDING, "", "motor power is switched by a coil");
    refuses(Role.SIGNAL_SOURCE, COIL, "mA", "the signal source needs a register");
    Register input =
        new Register(Register.Table.INPUT, 0, Register.Type.U16, Register.Order.ABCD, 1.0, 0.0);
    refuses(Role.SIGNAL_SOURCE, input, "mA", "is written to a holding register");
    refuses(Role.SIGNAL_SOURCE, HOLDING, "deg", "signal source needs a channel in mA");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> points(Role.POSITION_TRANSMITTER, HOLDING, Map.of()))
        .withMessageContaining("position transmitter needs a channel");
    Register flat =
        new Register(Register.Table.INPUT, 0, Register.Type.U16, Register.Order.ABCD, 0.0, 1.0);
    refuses(Role.LOOP_METER, flat, "mA", "a scale is a number other than 0");
  }

  @Test
  void refusesASwitchThatIsNoBitAndASerialNumberThatIsNoWholeNumber() {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new ModbusPoints(
                    1,
                    Map.of(),
                    Map.of(LimitSwitch.OPEN, HOLDING),
                    Optional.empty(),
                    Map.of(),
                    SignalRange.FOUR_TO_TWENTY))
        .withMessageContaining("coil or a discrete input");
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new ModbusPoints(
                    1,
                    Map.of(),
                    Map.of(),
                    Optional.of(HOLDING),
                    Map.of(),
                    SignalRange.FOUR_TO_TWENTY))
        .withMessageContaining("whole number");
  }

  @Test
  void aPositionInPercentIsTakenAsItIs() throws InstrumentException {
    ModbusRig rig = new ModbusRig();
    rig.box.holds(7, 42.5f);
    ModbusInstrument instrument =
        new ModbusInstrument(
            "transmitter",
            new ModbusTcpLine(rig.peer, Replay.ENDPOINT, rig.clock),
            points(
                Role.POSITION_TRANSMITTER,
                HOLDING,
                Map.of(Role.POSITION_TRANSMITTER, ModbusRig.channel("%", -5.0, 105.0))));
    assertThat(
            instrument
                .positionTransmitter()
                .orElseThrow()
                .read(Deadline.in(rig.clock, 100_000_000L))
                .value()
                .percent())
        .isEqualTo(42.5);
  }

  @Test
  void hasNoRoleThatItHasNoRegisterFor() {
    ModbusRig rig = new ModbusRig();
    ModbusInstrument instrument =
        new ModbusInstrument(
            "relay",
            new ModbusTcpLine(rig.peer, Replay.ENDPOINT, rig.clock),
            points(Role.MOTOR_POWER, COIL, Map.of()));
    assertThat(instrument.motorPower()).isPresent();
    assertThat(instrument.positionTransmitter()).isEmpty();
    assertThat(instrument.angleReference()).isEmpty();
    assertThat(instrument.loopMeter()).isEmpty();
    assertThat(instrument.switchReader()).isEmpty();
  }
}
