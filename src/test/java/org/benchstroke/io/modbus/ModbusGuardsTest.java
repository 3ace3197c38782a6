package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.Snapshot;
import org.benchstroke.io.instrument.SnapshotReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Registers that hold no measurement, and roles that are read together. */
class ModbusGuardsTest {
  private static ModbusRig rig(Register loop) {
    return new ModbusRig(
        false,
        new ModbusPoints(
            ModbusRig.UNIT,
            Map.of(Role.LOOP_METER, loop),
            Map.of(),
            Optional.empty(),
            Map.of(Role.LOOP_METER, ModbusRig.channel("mA", 0.0, 24.0)),
            SignalRange.FOUR_TO_TWENTY));
  }

  private static Register loop(Register.Type type, Guard guard) {
    return new Register(
        Register.Table.INPUT, 7, "30008", type, Register.Order.ABCD, 0.001, 0.0, guard);
  }

  private static Guard noValue(double... sentinels) {
    List<Double> list = java.util.Arrays.stream(sentinels).boxed().toList();
    return new Guard(list, Optional.empty(), Optional.empty());
  }

  private static Deadline soon(ModbusRig rig) {
    return Deadline.in(rig.clock, 500_000_000L);
  }

  private static InstrumentException failure(ModbusRig rig) {
    LoopMeter meter = rig.instrument.loopMeter().orElseThrow();
    return catchThrowableOfType(InstrumentException.class, () -> meter.read(soon(rig)));
  }

  @ParameterizedTest
  @CsvSource({
    "I16, 32767, 32767",
    "I16, 32768, 32768",
    "I16, 32768, -32768",
    "U16, 65535, 65535",
  })
  void aNumberThatMeansNoValueIsNamedAndNeverMeasured(
      Register.Type type, int word, double sentinel) {
    ModbusRig rig = rig(loop(type, noValue(1.5, sentinel)));
    rig.box.word(7, word);
    InstrumentException failure = failure(rig);
    assertThat(failure.kind()).isEqualTo(Kind.NO_VALUE);
    assertThat(failure)
        .hasMessageContaining("no value: input 30008 holds")
        .hasMessageContaining("which means that there is no value");
  }

  @Test
  void notANumberMayMeanNoValue() {
    ModbusRig rig = rig(loop(Register.Type.F32, noValue(Double.NaN)));
    rig.box.holds(7, Float.NaN);
    assertThat(failure(rig).kind()).isEqualTo(Kind.NO_VALUE);
    ModbusRig unsaid = rig(loop(Register.Type.F32, Guard.NONE));
    unsaid.box.holds(7, Float.NaN);
    assertThat(failure(unsaid).kind()).isEqualTo(Kind.BAD_REPLY);
  }

  @Test
  void aSentinelOfAFloatIsComparedAsTheFloatThatItIs() {
    ModbusRig rig = rig(loop(Register.Type.F32, noValue(-9999.9)));
    rig.box.holds(7, -9999.9f);
    assertThat(failure(rig).kind()).isEqualTo(Kind.NO_VALUE);
  }

  @Test
  void whatIsNotPlausibleIsABadReply() throws InstrumentException {
    Guard guard = new Guard(List.of(), Optional.of(new Guard.Range(0.0, 25.0)), Optional.empty());
    ModbusRig rig = rig(loop(Register.Type.U16, guard));
    rig.box.word(7, 25_000);
    assertThat(rig.instrument.loopMeter().orElseThrow().read(soon(rig)).value().milliamps())
        .isEqualTo(25.0);
    rig.box.word(7, 25_001);
    InstrumentException failure = failure(rig);
    assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
    assertThat(failure)
        .hasMessageContaining("implausible: the number in input 30008 is 25.001")
        .hasMessageContaining("plausible is 0 to 25");
  }

  @Test
  void aCounterThatStandsStillForTooLongMeansAFrozenValue() throws InstrumentException {
    Register counter =
        new Register(Register.Table.INPUT, 9, Register.Type.U16, Register.Order.ABCD, 1.0, 0.0);
    Guard guard =
        new Guard(List.of(), Optional.empty(), Optional.of(new Guard.Counter(counter, 1.0)));
    ModbusRig rig = rig(loop(Register.Type.U16, guard));
    rig.box.word(7, 12_000);
    LoopMeter meter = rig.instrument.loopMeter().orElseThrow();
    for (int i = 0; i < 10; i++) {
      rig.box.word(9, i);
      assertThat(meter.read(soon(rig)).value()).isEqualTo(Current.ofMilliamps(12.0));
      rig.clock.waitUntil(rig.clock.nanos() + 900_000_000L);
      assertThat(meter.read(soon(rig)).value()).isEqualTo(Current.ofMilliamps(12.0));
    }
    rig.clock.waitUntil(rig.clock.nanos() + 200_000_000L);
    InstrumentException frozen = failure(rig);
    assertThat(frozen.kind()).isEqualTo(Kind.FROZEN);
    assertThat(frozen).hasMessageContaining("the counter in input 9 has been 9 for 1.1 s");
    rig.box.word(9, 10);
    assertThat(meter.read(soon(rig)).value()).isEqualTo(Current.ofMilliamps(12.0));
  }

  @Test
  void positionStemAndLoopOfOneTableComeByOneRequest() throws InstrumentException {
    ModbusRig rig = new ModbusRig();
    rig.box.holds(0, 12.0f);
    rig.box.holds(2, 45.0f);
    rig.box.holds(4, 11.5f);
    rig.box.bit(10, true);
    SnapshotReader reader = rig.instrument.snapshots().orElseThrow();
    assertThat(reader.roles())
        .containsExactly(
            Role.LOOP_METER, Role.POSITION_TRANSMITTER, Role.ANGLE_REFERENCE, Role.SWITCHES);
    int before = rig.peer.sent();
    Snapshot snapshot = reader.take(soon(rig));
    assertThat(rig.peer.sent() - before).isEqualTo(2);
    assertThat(snapshot.position().value().percent()).isEqualTo(50.0);
    assertThat(snapshot.angle().value().degrees()).isEqualTo(45.0);
    assertThat(snapshot.loop().value()).isEqualTo(Current.ofMilliamps(11.5));
    assertThat(snapshot.angle().raw()).isEqualTo("04 00 02 -> 42 34 00 00 = 45.0");
    assertThat(snapshot.position().stampNanos()).isEqualTo(snapshot.angle().stampNanos());
    assertThat(snapshot.position().stampNanos()).isEqualTo(snapshot.loop().stampNanos());
    assertThat(snapshot.switches().value().get(LimitSwitch.CLOSED)).isTrue();
    assertThat(snapshot.switches().stampNanos()).isNotEqualTo(snapshot.angle().stampNanos());
  }

  @Test
  void aRoleWithoutAValueSpoilsNoOther() throws InstrumentException {
    ModbusRig rig = new ModbusRig();
    rig.box.holds(0, 12.0f);
    rig.box.holds(2, Float.POSITIVE_INFINITY);
    Snapshot snapshot = rig.instrument.snapshots().orElseThrow().take(soon(rig));
    assertThat(snapshot.position().value().percent()).isEqualTo(50.0);
    assertThat(catchThrowableOfType(InstrumentException.class, snapshot::angle))
        .hasMessageContaining("the float in input 2 read as ABCD is infinite");
  }

  @Test
  void aSourceWithoutAnOutputSwitchCanNotOpenTheLoop() {
    ModbusPoints with = ModbusRig.source(false);
    ModbusRig rig =
        new ModbusRig(
            false,
            new ModbusPoints(
                with.unitId(),
                with.registers(),
                Map.of(),
                Optional.empty(),
                with.channels(),
                with.feedback()));
    SignalSource source = rig.instrument.signalSource().orElseThrow();
    assertThat(source.opensLoop()).isFalse();
    InstrumentException refused =
        catchThrowableOfType(InstrumentException.class, () -> source.release(soon(rig)));
    assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
    assertThat(refused)
        .hasMessageContaining("names no output switch for it ([instrument.signal_source.output])");
    assertThat(rig.peer.sent()).isZero();
  }

  @Test
  void aWatchdogHearsItsValuesOneAfterTheOtherWhenTheyAreDue() throws InstrumentException {
    ModbusPoints source = ModbusRig.source(false);
    Register pulse =
        new Register(Register.Table.HOLDING, 30, Register.Type.U16, Register.Order.ABCD, 1.0, 0.0);
    ModbusRig rig =
        new ModbusRig(
            false,
            new ModbusPoints(
                source.unitId(),
                source.registers(),
                Map.of(),
                Optional.empty(),
                source.channels(),
                source.feedback(),
                source.source(),
                Optional.of(new KeepAlive(pulse, 0.5, List.of(1.0, 2.0)))));
    for (int expected : new int[] {1, 1, 2, 2, 1}) {
      rig.instrument.keepAlive(soon(rig));
      assertThat(rig.box.register(30)).isEqualTo(expected);
      rig.clock.waitUntil(rig.clock.nanos() + 250_000_000L);
    }
    assertThat(rig.peer.sent()).isEqualTo(3);
    rig.clock.waitUntil(rig.clock.nanos() + 500_000_000L);
    SignalSource role = rig.instrument.signalSource().orElseThrow();
    assertThat(role.apply(Current.ofMilliamps(4.0), soon(rig)).value())
        .isEqualTo(Current.ofMilliamps(4.0));
    assertThat(rig.box.register(30)).isEqualTo(2);
  }
}
