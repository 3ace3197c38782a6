package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.function.Supplier;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.line.LineWords;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.scpi.ScpiSettings;
import org.benchstroke.io.transport.Endpoint;

/**
 * The instruments of a bench file, played over a simulated unit: who is reached at which address,
 * and new connections to them. One thread at a time.
 */
final class PlayedInstruments {
  private static final String MAKER = "Example Instruments";
  private static final String MODEL = "simulated";
  private static final long SEED_STRIDE = 1_000_003L;

  private final Simulation simulation;
  private final UnitModel unit;
  private final Converters converters;
  private final Map<Endpoint, String> names = new LinkedHashMap<>();
  private final Map<Endpoint, List<InstrumentSpec>> specs = new LinkedHashMap<>();
  private final Map<Endpoint, Supplier<ByteSession>> ports = new HashMap<>();

  /** Plays instruments that have a port. */
  PlayedInstruments(
      Simulation simulation,
      UnitModel unit,
      Converters converters,
      List<InstrumentSpec> instruments) {
    this.simulation = simulation;
    this.unit = unit;
    this.converters = converters;
    for (InstrumentSpec spec : instruments) {
      specs.computeIfAbsent(spec.endpoint(), at -> new ArrayList<>()).add(spec);
      names.merge(spec.endpoint(), spec.name(), (one, other) -> one + ", " + other);
    }
    specs.forEach((endpoint, there) -> ports.put(endpoint, sessions(there)));
  }

  /** The addresses in the bench file's order, and which instruments are reached there. */
  Map<Endpoint, String> names() {
    return Collections.unmodifiableMap(names);
  }

  /** Who is reached at an address of the bench file. */
  List<InstrumentSpec> at(Endpoint written) {
    return specs.get(written);
  }

  /**
   * A new connection, without faults.
   *
   * @throws NoSuchElementException if the bench file has no such address
   */
  ByteSession connect(Endpoint written) {
    return Optional.ofNullable(ports.get(written))
        .orElseThrow(() -> new NoSuchElementException(written.text()))
        .get();
  }

  /** Whether they speak RTU at an address, and so want silence before a message. */
  boolean speakRtu(Endpoint written) {
    return at(written).get(0).speaks().equals(ModbusSettings.RTU);
  }

  private Supplier<ByteSession> sessions(List<InstrumentSpec> there) {
    InstrumentSpec first = there.get(0);
    if (first.talk() instanceof ScpiSettings) {
      ScpiBox box = scpi(there);
      return () -> new ScpiSession(box);
    }
    if (first.talk() instanceof ModbusSettings settings) {
      Map<Integer, RegisterMap> units = modbus(there);
      return settings.rtu() ? () -> new ModbusRtuSession(units) : () -> new ModbusTcpSession(units);
    }
    if (first.talk() instanceof LineWords) {
      return line(first)::connect;
    }
    throw new IllegalStateException(first.speaks().key() + " is not simulated");
  }

  private LinePlayer line(InstrumentSpec spec) {
    return new LinePlayer(
        spec,
        specimens(spec),
        unit,
        new LinePlayer.Around(relay(spec), converters, simulation.unitType().feedback()));
  }

  private ScpiBox scpi(List<InstrumentSpec> there) {
    InstrumentSpec first = there.get(0);
    String maker = first.maker().isEmpty() ? MAKER : first.maker();
    String model = first.model().isEmpty() ? MODEL : first.model();
    String identity = String.join(",", maker, model, first.serial(), "1.0");
    List<ScpiInstrument> parts = new ArrayList<>();
    for (InstrumentSpec spec : there) {
      specimens(spec)
          .forEach((role, specimen) -> parts.add(scpiInstrument(role, identity, specimen)));
    }
    return new ScpiBox(identity, parts);
  }

  private ScpiInstrument scpiInstrument(Role role, String identity, Specimen specimen) {
    return switch (role) {
      case SIGNAL_SOURCE -> new SourceInstrument(identity, specimen, unit::command);
      case SUPPLY_METER ->
          MeterInstrument.supply(identity, converters.of(specimen, unit::supplyVolts));
      default -> MeterInstrument.loop(identity, converters.of(specimen, unit::loopMilliamps));
    };
  }

  private SimulatedRelay relay(InstrumentSpec spec) {
    boolean welded =
        simulation.instrumentErrors().stream()
            .anyMatch(e -> e.isOf(spec, Role.MOTOR_POWER) && e.manner().welded());
    return new SimulatedRelay(unit, welded);
  }

  private Map<Integer, RegisterMap> modbus(List<InstrumentSpec> there) {
    Map<Integer, RegisterMap> units = new HashMap<>();
    for (InstrumentSpec spec : there) {
      int unitId = spec.talk(ModbusSettings.class).orElseThrow().unitId();
      RegisterMap map = units.computeIfAbsent(unitId, id -> new RegisterMap());
      new SimulatedModbus(unit, relay(spec), converters, simulation.unitType().feedback(), map)
          .add(spec, specimens(spec), simulation.instrumentErrors());
    }
    return units;
  }

  /** Each specimen has a seed of its own, so that one more instrument changes no other. */
  private Map<Role, Specimen> specimens(InstrumentSpec spec) {
    Map<Role, Specimen> specimens = new EnumMap<>(Role.class);
    long seed = simulation.seed() * 31 + number(spec.serial());
    for (var channel : spec.channels().entrySet()) {
      Role role = channel.getKey();
      List<InstrumentError> errors =
          simulation.instrumentErrors().stream().filter(e -> e.isOf(spec, role)).toList();
      specimens.put(role, new Specimen(channel.getValue(), seed, errors));
      seed += SEED_STRIDE;
    }
    return specimens;
  }

  /** A number that stands for a serial number; String's hash is the same everywhere. */
  private static long number(String serial) {
    return serial.matches("[0-9]{1,15}") ? Long.parseLong(serial) : serial.hashCode();
  }
}
