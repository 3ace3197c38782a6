package org.benchstroke.simulator;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.model.InputParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.Truth;
import org.benchstroke.core.model.UnitTruth;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.Endpoint;

/**
 * A simulated unit with the instruments of a bench file around it. The motor supply is off at
 * first; a relay of the bench switches it, or, where there is none, a person. The same simulation,
 * bench file, times and bytes give the same answers. One thread at a time.
 */
public final class SimulatedBench {
  private final Simulation simulation;
  private final String benchText;
  private final BenchFile file;
  private final SimulatedUnit unit;
  private final PlayedInstruments instruments;
  private final LinkScript script;
  private final Converters converters = new Converters();

  private SimulatedBench(Simulation simulation, String benchName, String benchText)
      throws FileMistakes {
    this.simulation = simulation;
    this.benchText = benchText;
    this.file = BenchFileReader.read(TomlDocument.parse(benchName, benchText));
    List<InstrumentSpec> played = PlayableBench.withPort(file);
    PlayableBench.requirePlayable(benchName, file);
    LinkScript.requireFit(simulation.faults(), played);
    this.script = new LinkScript(simulation);
    PlayableBench.requireNone(
        InstrumentError.missing(simulation.instrumentErrors(), benchName, file));
    this.unit =
        new SimulatedUnit(
            simulation.unitType(), withSource(simulation.parameters(), file), simulation.seed());
    this.instruments = new PlayedInstruments(simulation, unit.model(), converters, played);
    PlayableBench.requireReplaceable(benchName, benchText, file);
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
    converters.advanceTo(nanos, unit::advanceTo);
  }

  /**
   * The unit's own calibration.
   *
   * @param succeeded whether it found a span; it keeps its former one otherwise
   * @param seconds how long it took, s
   */
  public record Calibration(boolean succeeded, double seconds) {}

  /**
   * Lets the unit calibrate itself, with its motor supply on for so long: to be called before the
   * bench is advanced, whose time does not count it.
   */
  public Calibration calibrateUnit() {
    return unit.calibrateItself();
  }

  /** Whether a person switches the motor supply, for the bench has no relay. */
  public boolean switchedByHand() {
    return file.playing(Role.MOTOR_POWER).isEmpty();
  }

  /** Switches the motor supply as a person would. */
  public void motorSupply(boolean on) {
    unit.model().motorPower(on);
  }

  public boolean motorSupply() {
    return unit.model().motorPower();
  }

  /** What a person's hands do at the unit itself. */
  public SimulatedHand hand() {
    return unit.hand();
  }

  /** Sets the source as a person would, mA: on a bench whose source has no port. */
  public void sourceByHand(double milliamps) {
    unit.model().command(milliamps);
  }

  /** What a person sees of a switch. */
  public boolean made(LimitSwitch which) {
    return unit.made(which);
  }

  /** What is really so, which no instrument can see. */
  public Truth truth() {
    return unit.model().truth();
  }

  /** What a perfect test of the unit would report; takes a second or so of computing. */
  public UnitTruth unitTruth() {
    return unit.perfectlyTested();
  }

  /** The addresses in the bench file, in its order, and which instruments are reached there. */
  public Map<Endpoint, String> ports() {
    return instruments.names();
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
   * How long the instruments at an address want the line silent before they act, ns of wall time.
   */
  long silenceNanos(Endpoint.Serial written) {
    return instruments.speakRtu(written) ? PacedWire.silenceNanos(written.settings()) : 0;
  }

  /**
   * A new connection.
   *
   * @param written an address of the bench file
   * @throws NoSuchElementException if it has no such address
   */
  public ByteSession connect(Endpoint written) {
    ByteSession session = instruments.connect(written);
    return script.around(instruments.at(written), session);
  }

  /**
   * The bench file that fits: the one that it was built from with other addresses.
   *
   * @param addresses where each address of the bench file is reached; one that is left out stays
   * @param timeScale bench seconds per wall second
   */
  public String benchToml(Map<Endpoint, ? extends Endpoint> addresses, double timeScale) {
    return benchToml(addresses, timeScale, Optional.empty());
  }

  String benchToml(
      Map<Endpoint, ? extends Endpoint> addresses, double timeScale, Optional<Path> clock) {
    Map<String, String> texts = new HashMap<>();
    addresses.forEach((written, real) -> texts.put(written.text(), real.text()));
    return BenchRewrite.of(
        benchText, texts, simulation.shows(), simulation.samplePeriodMillis(), timeScale, clock);
  }

  /** The voltage that drives the loop is the source's. */
  private static ModelParameters withSource(ModelParameters parameters, BenchFile file) {
    InputParameters input = parameters.input();
    double volts =
        file.playing(Role.SIGNAL_SOURCE)
            .orElseThrow()
            .complianceVolts()
            .orElse(input.complianceVolts());
    return parameters.with(input.withLoop(volts, input.loopOhms()));
  }
}
