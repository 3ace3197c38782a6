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
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.InstrumentSpec.Language;
import org.benchstroke.bench.UnitType;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.Mistake;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.Role;
import org.benchstroke.model.CalibrationParameters;
import org.benchstroke.model.InputParameters;
import org.benchstroke.model.ModelParameters;
import org.benchstroke.model.Truth;
import org.benchstroke.model.UnitModel;
import org.benchstroke.model.UnitTruth;
import org.benchstroke.transport.Endpoint;

/**
 * A simulated unit with the instruments of a bench file around it. The motor supply is off at
 * first; a relay of the bench switches it, or, where there is none, a person. The same simulation,
 * bench file, times and bytes give the same answers. One thread at a time.
 */
public final class SimulatedBench {
  private static final String MAKER = "Example Instruments";
  private static final String MODEL = "simulated";
  private static final String REPLACED = "replaced.invalid";
  private static final long SEED_STRIDE = 1_000_003L;

  private final Simulation simulation;
  private final String benchText;
  private final BenchFile file;
  private ModelParameters parameters;
  private final UnitModel unit;
  private final Map<Endpoint, String> names = new LinkedHashMap<>();
  private final Map<Endpoint, List<InstrumentSpec>> specs = new LinkedHashMap<>();
  private final Map<Endpoint, Supplier<ByteSession>> ports = new HashMap<>();
  private final LinkScript script;
  private long aheadNanos;

  private SimulatedBench(Simulation simulation, String benchName, String benchText)
      throws FileMistakes {
    this.simulation = simulation;
    this.benchText = benchText;
    this.file = BenchFileReader.read(TomlDocument.parse(benchName, benchText));
    requirePlayable(benchName, file);
    LinkScript.requireFit(simulation.faults(), withPort(file));
    this.script = new LinkScript(simulation);
    requireNone(InstrumentError.missing(simulation.instrumentErrors(), benchName, file));
    this.parameters = withSource(simulation.parameters(), file);
    this.unit = new UnitModel(parameters, simulation.seed());
    for (InstrumentSpec spec : withPort(file)) {
      specs.computeIfAbsent(spec.endpoint(), at -> new ArrayList<>()).add(spec);
      names.merge(spec.endpoint(), spec.name(), (one, other) -> one + ", " + other);
    }
    specs.forEach((endpoint, there) -> ports.put(endpoint, sessions(there)));
    requireReplaceable(benchName);
  }

  /**
   * The simulation with the instruments of the built-in bench.
   *
   * @throws FileMistakes if the simulation has faults or errors of instruments that this bench
   *     lacks
   */
  public static SimulatedBench builtIn(Simulation simulation) throws FileMistakes {
    return around(simulation, "built-in bench", BuiltInBench.text(simulation));
  }

  /** Likewise, for a simulation that is known to fit. */
  public static SimulatedBench of(Simulation simulation) {
    try {
      return builtIn(simulation);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /**
   * The simulation with the instruments of a bench file. Whether there is an angle reference, and
   * with how much voltage the source drives the loop, is then the bench file's word.
   *
   * @param benchName the name of the file, for messages
   * @param benchText its text
   * @throws FileMistakes if it is no sound bench file, has an instrument that can't be simulated,
   *     or lacks one of which the simulation has an error
   */
  public static SimulatedBench around(Simulation simulation, String benchName, String benchText)
      throws FileMistakes {
    return new SimulatedBench(simulation, benchName, benchText);
  }

  public Simulation simulation() {
    return simulation;
  }

  /** Steps the unit up to the instant, ns since the bench's beginning. */
  public void advanceTo(long nanos) {
    script.advanceTo(nanos);
    unit.advanceTo(aheadNanos + nanos);
  }

  /**
   * The unit's own calibration.
   *
   * @param succeeded whether it found a span; it keeps its former one otherwise
   * @param seconds how long it took, s
   */
  public record Calibrated(boolean succeeded, double seconds) {}

  /**
   * Lets the unit calibrate itself, with its motor supply on for so long: to be called before the
   * bench is advanced, whose time does not count it.
   */
  public Calibrated calibrateUnit() {
    double seconds = unit.calibrateItself();
    aheadNanos += Math.round(seconds * 1e9);
    if (unit.calibrationSucceeded()) {
      parameters =
          parameters.withCalibration(parameters.calibration().by(CalibrationParameters.By.UNIT));
    }
    return new Calibrated(unit.calibrationSucceeded(), seconds);
  }

  /** Whether a person switches the motor supply, for the bench has no relay. */
  public boolean switchedByHand() {
    return file.playing(Role.MOTOR_POWER).isEmpty();
  }

  /** Switches the motor supply as a person would. */
  public void motorSupply(boolean on) {
    unit.motorPower(on);
  }

  public boolean motorSupply() {
    return unit.motorPower();
  }

  /** Sets the source as a person would, mA: on a bench whose source has no port. */
  public void sourceByHand(double milliamps) {
    unit.command(milliamps);
  }

  /** What a person sees of a switch. */
  public boolean made(LimitSwitch which) {
    return switch (which) {
      case CLOSED -> unit.closedMade();
      case OPEN -> unit.openMade();
      case CLOSED_AUXILIARY -> unit.closedAuxiliaryMade();
      case OPEN_AUXILIARY -> unit.openAuxiliaryMade();
    };
  }

  /** What is really so, which no instrument can see. */
  public Truth truth() {
    return unit.truth();
  }

  /** What a perfect test of the unit would report; takes a second or so of computing. */
  public UnitTruth unitTruth() {
    UnitType type = simulation.unitType();
    return UnitTruth.of(
        parameters, new UnitTruth.Ordered(type.signal(), type.characteristic(), type.feedback()));
  }

  /** The addresses in the bench file, in its order, and which instruments are reached there. */
  public Map<Endpoint, String> ports() {
    return Collections.unmodifiableMap(names);
  }

  /**
   * The serial port of a line.
   *
   * @param line what the bench file calls it
   * @return empty if it has no such line, or none of that name on a serial port
   */
  public Optional<Endpoint.Serial> serialLine(String line) {
    return Optional.ofNullable(file.lines().get(line))
        .filter(Endpoint.Serial.class::isInstance)
        .map(Endpoint.Serial.class::cast);
  }

  /**
   * How long the instruments at an address want the line silent before they act, ns of the wall.
   */
  long silenceNanos(Endpoint.Serial written) {
    boolean rtu = specs.get(written).get(0).speaks() == Language.MODBUS_RTU;
    return rtu ? PacedWire.silenceNanos(written.settings()) : 0;
  }

  /**
   * A new connection.
   *
   * @param written an address of the bench file
   * @throws NoSuchElementException if it has no such address
   */
  public ByteSession connect(Endpoint written) {
    ByteSession session =
        Optional.ofNullable(ports.get(written))
            .orElseThrow(() -> new NoSuchElementException(written.text()))
            .get();
    return script.around(specs.get(written), session);
  }

  /**
   * The bench file that fits: the one that it was built from with other addresses.
   *
   * @param addresses where each address of the bench file is reached; one that is left out stays
   * @param timeScale bench seconds per wall second
   */
  public String benchToml(Map<Endpoint, ? extends Endpoint> addresses, double timeScale) {
    Map<String, String> texts = new HashMap<>();
    addresses.forEach((written, real) -> texts.put(written.text(), real.text()));
    return BenchRewrite.of(benchText, texts, simulation, timeScale);
  }

  /** What is typed in has no port: a person reads it. */
  private static List<InstrumentSpec> withPort(BenchFile file) {
    return file.instruments().stream().filter(spec -> !spec.typedIn()).toList();
  }

  private static void requirePlayable(String benchName, BenchFile file) throws FileMistakes {
    List<Mistake> mistakes = new ArrayList<>();
    Map<Endpoint, Language> spoken = new HashMap<>();
    for (InstrumentSpec spec : withPort(file)) {
      boolean taken = spoken.containsKey(spec.endpoint());
      if (taken && spec.speaks() == Language.LINE) {
        mistakes.add(
            mistake(
                benchName, spec, "address", "only one line instrument at an address is simulated"));
      }
      Language first = spoken.computeIfAbsent(spec.endpoint(), at -> spec.speaks());
      if (first != spec.speaks()) {
        mistakes.add(
            mistake(benchName, spec, "address", "two languages at one address; give it another"));
      }
      boolean numbered = spec.modbus().flatMap(InstrumentSpec.ModbusMap::serialNumber).isPresent();
      if (numbered && !spec.serial().matches("[0-9]{1,15}")) {
        mistakes.add(
            mistake(
                benchName,
                spec,
                "serial",
                "found \"" + spec.serial() + "\", but a register holds digits alone"));
      }
    }
    requireNone(mistakes);
  }

  private static void requireNone(List<Mistake> mistakes) throws FileMistakes {
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
  }

  /** An address that stayed would lead to an instrument, not to its simulation. */
  private void requireReplaceable(String benchName) throws FileMistakes {
    Map<Endpoint, Endpoint.Tcp> others = new HashMap<>();
    specs.keySet().forEach(at -> others.put(at, new Endpoint.Tcp(REPLACED, others.size() + 1)));
    TomlDocument rewritten = TomlDocument.parse(benchName, benchToml(others, 1.0));
    List<Mistake> mistakes = new ArrayList<>();
    for (InstrumentSpec spec : withPort(BenchFileReader.read(rewritten))) {
      if (!others.containsValue(spec.endpoint())) {
        mistakes.add(
            mistake(benchName, spec, "address", "write address = \"…\" in a line of its own"));
      }
    }
    requireNone(mistakes);
  }

  private static Mistake mistake(
      String benchName, InstrumentSpec spec, String key, String message) {
    return new Mistake(benchName, 0, "instrument \"" + spec.name() + "\": " + key, message);
  }

  /** The voltage that drives the loop is the source's. */
  private static ModelParameters withSource(ModelParameters parameters, BenchFile file) {
    InputParameters input = parameters.input();
    double volts =
        file.playing(Role.SIGNAL_SOURCE)
            .orElseThrow()
            .complianceVolts()
            .orElse(input.complianceVolts());
    return parameters.withInput(input.withLoop(volts, input.loopOhms()));
  }

  private Supplier<ByteSession> sessions(List<InstrumentSpec> there) {
    return switch (there.get(0).speaks()) {
      case SCPI -> {
        ScpiBox box = scpi(there);
        yield () -> new ScpiSession(box);
      }
      case MODBUS_TCP -> {
        Map<Integer, RegisterMap> units = modbus(there);
        yield () -> new ModbusTcpSession(units);
      }
      case MODBUS_RTU -> {
        Map<Integer, RegisterMap> units = modbus(there);
        yield () -> new ModbusRtuSession(units);
      }
      case LINE -> {
        InstrumentSpec spec = there.get(0);
        LinePlayer player =
            new LinePlayer(spec, specimens(spec), unit, simulation.unitType().feedback());
        yield player::connect;
      }
      case TYPED_IN -> throw new IllegalStateException("what is typed in has no port");
    };
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
      case SUPPLY_METER -> MeterInstrument.supply(identity, specimen, unit::supplyVolts);
      default -> MeterInstrument.loop(identity, specimen, unit::loopMilliamps);
    };
  }

  private Map<Integer, RegisterMap> modbus(List<InstrumentSpec> there) {
    Map<Integer, RegisterMap> units = new HashMap<>();
    for (InstrumentSpec spec : there) {
      int unitId = spec.modbus().orElseThrow().unitId();
      RegisterMap map = units.computeIfAbsent(unitId, id -> new RegisterMap());
      new SimulatedModbus(unit, simulation.unitType().feedback(), map)
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
