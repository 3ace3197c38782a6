package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ModbusTranscriptTest {
  private static ModbusInstrument instrument(Replay replay, Map<LimitSwitch, Register> switches) {
    return new ModbusInstrument(
        "input module",
        new ModbusTcpLine(replay.links(), Replay.ENDPOINT, replay.clock()),
        ModbusRig.points(switches));
  }

  private static ModbusInstrument instrument(Replay replay) {
    return instrument(replay, ModbusRig.SWITCHES);
  }

  private static PositionTransmitter transmitter(Replay replay) {
    return instrument(replay).positionTransmitter().orElseThrow();
  }

  private interface Call {
    void make() throws InstrumentException;
  }

  private static InstrumentException failure(Call call) {
    return catchThrowableOfType(InstrumentException.class, call::make);
  }

  @Test
  void aFloatIsReadAndShownAsItCame() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-float",
        replay -> {
          Reading<Position> reading = transmitter(replay).read(replay.inMillis(100));
          // 50 mA on 4–20 mA: (50 - 4) / 16 of full travel.
          assertThat(reading.value().percent()).isCloseTo(287.5, within(1e-9));
          assertThat(reading.raw()).isEqualTo("04 00 00 -> 42 48 00 00 = 50.0");
          assertThat(reading.askedNanos()).isZero();
          assertThat(reading.answeredNanos()).isEqualTo(4_000_000L);
        });
  }

  @Test
  void aLateReplyIsNamedAndNotAccepted() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-late-reply",
        replay -> {
          PositionTransmitter transmitter = transmitter(replay);
          assertThat(failure(() -> transmitter.read(replay.inMillis(100))).kind())
              .isEqualTo(Kind.NO_REPLY);
          InstrumentException late = failure(() -> transmitter.read(replay.inMillis(100)));
          assertThat(late.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(late)
              .hasMessageContaining("late reply: it answers transaction 1, an earlier question")
              .hasMessageContaining("this is transaction 2");
          assertThat(transmitter.read(replay.inMillis(100)).raw()).endsWith("= 50.0");
        });
  }

  @ParameterizedTest
  @CsvSource({
    "modbus-half-then-gone, PORT_GONE, 00 01 00 00 00 07 11",
    "modbus-slow-drip, NO_REPLY, -> 00 01 00 00 00 07",
    "modbus-not-a-number, BAD_REPLY, the float in input 0 read as ABCD is not a number",
  })
  void whatIsNoReadingIsAnErrorOfItsKind(String transcript, Kind kind, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        transcript,
        replay -> {
          InstrumentException failure =
              failure(() -> transmitter(replay).read(replay.inMillis(100)));
          assertThat(failure.kind()).isEqualTo(kind);
          assertThat(failure).hasMessageContaining("unit id 17: ").hasMessageContaining(words);
          assertThat(replay.clock().nanos()).isLessThanOrEqualTo(100_000_000L);
        });
  }

  @Test
  void motorPowerIsWrittenOnceAndReadBack() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-motor-power",
        replay -> {
          instrument(replay).motorPower().orElseThrow().set(true, replay.inMillis(100));
          assertThat(replay.clock().nanos()).isEqualTo(8_000_000L);
        });
  }

  /** The device's own, or one that a gateway says it missed (exception 0B of its protocol). */
  @ParameterizedTest
  @ValueSource(strings = {"modbus-motor-power-read-back", "modbus-motor-power-gateway"})
  void aWriteWhoseReplyIsLostIsReadBackAndNotSentAgain(String transcript)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        transcript,
        replay -> instrument(replay).motorPower().orElseThrow().set(true, replay.inMillis(100)));
  }

  @ParameterizedTest
  @CsvSource({
    "modbus-motor-power-disobeyed, BAD_REPLY, coil 0 was set to 1 but reads 0",
    "modbus-motor-power-gateway-off, BEHIND_GATEWAY, coil 0 was set to 1 but reads 0",
    "modbus-motor-power-silent, NO_REPLY, it is not known whether the write took effect"
  })
  void aWriteThatCanNotBeVouchedForIsAnError(String transcript, Kind kind, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        transcript,
        replay -> {
          MotorPower power = instrument(replay).motorPower().orElseThrow();
          InstrumentException failure = failure(() -> power.set(true, replay.inMillis(100)));
          assertThat(failure.kind()).isEqualTo(kind);
          assertThat(failure).hasMessageContaining(words);
        });
  }

  @Test
  void switchesThatStandTogetherAreReadAtOneInstant() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-switches-one-request",
        replay -> {
          Reading<Map<LimitSwitch, Boolean>> reading =
              instrument(replay).switchReader().orElseThrow().read(replay.inMillis(100));
          assertThat(reading.value())
              .isEqualTo(
                  Map.of(
                      LimitSwitch.CLOSED, true,
                      LimitSwitch.CLOSED_AUXILIARY, false,
                      LimitSwitch.OPEN, true));
          assertThat(reading.raw()).isEqualTo("02 00 0A -> 09");
        });
  }

  @Test
  void switchesTooFarApartAreReadOneByOneAndTheStampSpansThemAll() throws InstrumentException {
    Map<LimitSwitch, Register> far =
        Map.of(
            LimitSwitch.CLOSED, ModbusRig.bit(Register.Table.DISCRETE, 0),
            LimitSwitch.OPEN, ModbusRig.bit(Register.Table.DISCRETE, 2000));
    Replay.atEveryChunkSize(
        "modbus-switches-far-apart",
        replay -> {
          Reading<Map<LimitSwitch, Boolean>> reading =
              instrument(replay, far).switchReader().orElseThrow().read(replay.inMillis(100));
          assertThat(reading.value())
              .isEqualTo(Map.of(LimitSwitch.CLOSED, true, LimitSwitch.OPEN, false));
          assertThat(reading.askedNanos()).isZero();
          assertThat(reading.answeredNanos()).isEqualTo(8_000_000L);
        });
  }

  @Test
  void theSerialNumberIsAllTheIdentityThereIs() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-serial-number",
        replay ->
            assertThat(instrument(replay).identify(replay.inMillis(100)))
                .contains(new Identity("", "", "3003", "", "03 00 64 -> 00 00 0B BB = 3003")));
  }
}
