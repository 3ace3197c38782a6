package org.benchstroke.run;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.DisplaySettings;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.AngleReference;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.RolePlayer;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.SnapshotReader;
import org.benchstroke.io.instrument.SupplyMeter;
import org.benchstroke.io.instrument.SwitchReader;
import org.benchstroke.io.instrument.Talk;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.line.LineInstrument;
import org.benchstroke.io.line.LineWords;
import org.benchstroke.io.modbus.ModbusInstrument;
import org.benchstroke.io.modbus.ModbusLine;
import org.benchstroke.io.modbus.ModbusRtuLine;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.ModbusTcpLine;
import org.benchstroke.io.modbus.RtuTiming;
import org.benchstroke.io.scpi.ScpiHabits;
import org.benchstroke.io.scpi.ScpiLine;
import org.benchstroke.io.scpi.ScpiMeter;
import org.benchstroke.io.scpi.ScpiSettings;
import org.benchstroke.io.scpi.ScpiSignalSource;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.unit.UnitType;

/**
 * Puts a bench together from its file: one line for each address, one driver for each instrument,
 * one player for each role. Opens nothing. The drivers' catalogue is here: a new driver is one
 * case.
 */
public final class BenchAssembly {
  private final SignalRange feedback;
  private final LinkOpener links;
  private final BenchClock clock;
  private final Map<Endpoint, Map<ScpiHabits, ScpiLine>> scpiLines = new HashMap<>();
  private final Map<Endpoint, ModbusLine> modbusLines = new HashMap<>();
  private final Map<Endpoint, TextLine> textLines = new HashMap<>();
  private final List<Instrument> instruments = new ArrayList<>();
  private final List<SnapshotReader> snapshots = new ArrayList<>();
  private final List<InstrumentSpec> eyes = new ArrayList<>();
  private Optional<SignalSource> source = Optional.empty();
  private Optional<PositionTransmitter> position = Optional.empty();
  private Optional<LoopMeter> loopMeter = Optional.empty();
  private Optional<AngleReference> angle = Optional.empty();
  private Optional<SwitchReader> switches = Optional.empty();
  private Optional<SupplyMeter> supplyMeter = Optional.empty();
  private Optional<MotorPower> motorPower = Optional.empty();

  private BenchAssembly(SignalRange feedback, LinkOpener links, BenchClock clock) {
    this.feedback = feedback;
    this.links = links;
    this.clock = clock;
  }

  /**
   * The bench's instruments in their roles, closed.
   *
   * @param operator sets a source that has no port
   */
  public static Bench of(
      BenchFile file, UnitType unit, LinkOpener links, BenchClock clock, Operator operator) {
    return of(file, unit.feedback(), links, clock, operator);
  }

  /** The same where of the unit nothing but the range of its feedback matters. */
  public static Bench of(
      BenchFile file, SignalRange feedback, LinkOpener links, BenchClock clock, Operator operator) {
    BenchAssembly assembly = new BenchAssembly(feedback, links, clock);
    double longest = 0.0;
    for (InstrumentSpec spec : file.instruments()) {
      longest = Math.max(longest, spec.replySeconds());
      assembly.add(spec, operator);
    }
    return new Bench(
        assembly.instruments,
        assembly.source.orElseThrow(),
        assembly.sourceInstrument(file),
        assembly.position.orElseThrow(),
        assembly.loopMeter,
        assembly.angle,
        assembly.switches,
        assembly.supplyMeter,
        assembly.motorPower,
        assembly.snapshots,
        assembly.byEye(Role.ANGLE_REFERENCE),
        assembly.byEye(Role.POSITION_TRANSMITTER),
        assembly.byEye(Role.SWITCHES),
        (long) (longest * 1e9 * clock.patience()));
  }

  /** The drivers' catalogue. */
  private void add(InstrumentSpec spec, Operator operator) {
    Talk talk = spec.talk();
    if (talk instanceof ScpiSettings settings) {
      addScpi(spec, settings);
    } else if (talk instanceof ModbusSettings settings) {
      addModbus(spec, settings);
    } else if (talk instanceof LineWords words) {
      addPlayer(
          spec, new LineInstrument(spec.name(), textLine(spec), words, spec.channels(), feedback));
    } else if (talk instanceof DisplaySettings) {
      addByHand(spec, operator);
    } else {
      throw new IllegalStateException("no driver speaks " + spec.speaks().key());
    }
  }

  private Optional<Instrument> sourceInstrument(BenchFile file) {
    String name = file.playing(Role.SIGNAL_SOURCE).orElseThrow().name();
    return instruments.stream().filter(each -> each.name().equals(name)).findFirst();
  }

  private Optional<InstrumentSpec> byEye(Role role) {
    return eyes.stream().filter(spec -> spec.roles().contains(role)).findFirst();
  }

  private void addByHand(InstrumentSpec spec, Operator operator) {
    eyes.add(spec);
    if (spec.roles().contains(Role.SIGNAL_SOURCE)) {
      source = Optional.of(new HandSource(spec, clock, operator));
    }
    if (spec.roles().contains(Role.POSITION_TRANSMITTER)) {
      position =
          Optional.of(
              deadline -> {
                throw new InstrumentException(
                    InstrumentException.Kind.REFUSED,
                    spec.name(),
                    spec.endpoint().text(),
                    "read the position",
                    "it has no port: a person reads it at points of rest only");
              });
    }
  }

  private void addScpi(InstrumentSpec spec, ScpiSettings talk) {
    ScpiLine line =
        scpiLines
            .computeIfAbsent(spec.endpoint(), endpoint -> new HashMap<>())
            .computeIfAbsent(talk.habits(), own -> new ScpiLine(textLine(spec), own));
    if (spec.roles().contains(Role.SIGNAL_SOURCE)) {
      ScpiSignalSource made =
          new ScpiSignalSource(spec.name(), line, spec.channels().get(Role.SIGNAL_SOURCE));
      source = Optional.of(made);
      instruments.add(made);
    }
    if (spec.roles().contains(Role.LOOP_METER)) {
      ScpiMeter<Current> made =
          ScpiMeter.loop(spec.name(), line, spec.channels().get(Role.LOOP_METER));
      loopMeter = Optional.of(made::read);
      addOnce(made, spec, Role.SIGNAL_SOURCE);
    }
    if (spec.roles().contains(Role.SUPPLY_METER)) {
      Channel channel = spec.channels().get(Role.SUPPLY_METER);
      ScpiMeter<Voltage> made =
          ScpiMeter.supply(spec.name(), line, channel, talk.alternatingSupply());
      supplyMeter = Optional.of(made::read);
      addOnce(made, spec, Role.SIGNAL_SOURCE, Role.LOOP_METER);
    }
  }

  /** One box in several roles is opened and identified once, as the first of them. */
  private void addOnce(Instrument made, InstrumentSpec spec, Role... before) {
    if (Collections.disjoint(spec.roles(), List.of(before))) {
      instruments.add(made);
    }
  }

  /** One connection for all that talk in lines of text at an address. */
  private TextLine textLine(InstrumentSpec spec) {
    return textLines.computeIfAbsent(
        spec.endpoint(), endpoint -> new TextLine(links, endpoint, clock));
  }

  private void addModbus(InstrumentSpec spec, ModbusSettings settings) {
    ModbusLine line =
        modbusLines.computeIfAbsent(
            spec.endpoint(),
            endpoint ->
                settings.rtu()
                    ? new ModbusRtuLine(links, endpoint, RtuTiming.of(endpoint), clock)
                    : new ModbusTcpLine(links, endpoint, clock));
    ModbusInstrument made =
        new ModbusInstrument(spec.name(), line, settings.points(spec.channels(), feedback));
    made.snapshots().ifPresent(snapshots::add);
    addPlayer(spec, made);
  }

  private void addPlayer(InstrumentSpec spec, RolePlayer made) {
    instruments.add(made);
    for (Role role : spec.roles()) {
      switch (role) {
        case SIGNAL_SOURCE -> source = made.signalSource();
        case POSITION_TRANSMITTER -> position = made.positionTransmitter();
        case ANGLE_REFERENCE -> angle = made.angleReference();
        case LOOP_METER -> loopMeter = made.loopMeter();
        case SUPPLY_METER -> supplyMeter = made.supplyMeter();
        case SWITCHES -> switches = made.switchReader();
        case MOTOR_POWER -> motorPower = made.motorPower();
      }
    }
  }
}
